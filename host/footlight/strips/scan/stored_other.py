"""PNG and JPEG, and what of TIFF needs it: by Pillow."""

import warnings
from pathlib import Path

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageFile

from footlight.strips.scan import stored
from footlight.strips.scan.stored import Stored

STARTS = (b"\x89PNG", b"\xff\xd8")
_GREY_OR_RGB = {"L", "RGB", "I;16", "I;16B", "I;16L", "I", "YCbCr"}
_CLEAR = {"LA", "PA", "RGBA"}
JPEG = "JPEG throws fine detail away: graininess is not to be trusted; scan to TIFF"
_TURNED = {"RGB;16B": "RGB;16L", "RGBA;16B": "RGBA;16L"}


def read(path: Path, *formats: str) -> Stored:
    """The picture in a file; formats: PNG and JPEG, or those.

    Raises ScanError, or whatever a damaged file makes of Pillow.
    """
    with _opened(path, formats or ("PNG", "JPEG")) as picture:
        _refuse(path, picture)
        dpi = picture.info.get("dpi")
        pixels, notes = _pixels(path, picture)
        exif = picture.getexif()
        stored.refuse_camera(path, {*exif, *exif.get_ifd(stored.EXIF)})
        pixels = stored.upright(pixels, exif.get(stored.ORIENTATION, 1))
    jpeg = (JPEG,) if picture.format == "JPEG" else ()
    return Stored(pixels, (float(dpi[0]), float(dpi[1])) if dpi else None, (*jpeg, *notes))


def _opened(path: Path, formats: tuple[str, ...]) -> ImageFile.ImageFile:
    """Pillow warns of many pixels, and refuses still more; the limit here is `stored.MOST_PIXELS`."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", Image.DecompressionBombWarning)
        try:
            return Image.open(path, formats=formats)
        except Image.DecompressionBombError as error:
            raise stored.enormous(path, "far more pixels than a strip has") from error


def _refuse(path: Path, picture: ImageFile.ImageFile) -> None:
    stored.refuse_enormous(path, *picture.size)
    if picture.mode not in _GREY_OR_RGB | _CLEAR | {"P"}:
        stored.refuse_colours(path, {"1": "1 bit, without greys"}.get(picture.mode, picture.mode))


def _pixels(path: Path, picture: ImageFile.ImageFile) -> tuple[NDArray, tuple[str, ...]]:
    if deep := _sixteen_bits(path, picture):
        return deep
    if picture.mode in _CLEAR or "transparency" in picture.info:
        return stored.opaque(np.asarray(picture.convert("RGBA")))
    if picture.mode == "P":
        return np.asarray(picture.convert("RGB")), (stored.PALETTE,)
    pixels = np.asarray(picture.convert("RGB") if picture.mode == "YCbCr" else picture)
    return pixels.astype(np.uint16) if pixels.dtype == np.int32 else pixels, ()


def _sixteen_bits(path: Path, picture: ImageFile.ImageFile) -> tuple[NDArray, tuple[str, ...]] | None:
    """A PNG of 16 bits in colour. Pillow keeps the upper byte of each sample alone: the file is read twice,
    the second time as if its bytes lay the other way round, so that the lower ones are kept."""
    turned = _TURNED.get(str(picture.tile[0][3])) if picture.format == "PNG" and picture.tile else None
    if turned is None:
        return None
    upper = np.asarray(picture).astype(np.uint16)
    with _opened(path, ("PNG",)) as again:
        again.tile = [(*again.tile[0][:3], turned)]  # pyright: ignore[reportAttributeAccessIssue]
        pixels = upper << 8 | np.asarray(again)
    return stored.opaque(pixels) if pixels.shape[2] == 4 else (pixels, ())
