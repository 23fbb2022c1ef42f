"""TIFF: by tifffile, which keeps 16 bits and maps what lies in one piece; the rest of 8 bits by Pillow."""

from dataclasses import replace
from importlib.util import find_spec
from pathlib import Path

import numpy as np
import tifffile
from numpy.typing import NDArray

from footlight.strips.errors import ScanError
from footlight.strips.scan import stored, stored_other
from footlight.strips.scan.stored import Stored

STARTS = (b"II*\0", b"MM\0*", b"II+\0", b"MM\0+")
_MOST_CHANNELS = 4
_CM_PER_INCH = 2.54
_INCH, _CENTIMETRE = 2, 3
_GREY_OR_RGB = {
    tifffile.PHOTOMETRIC.MINISWHITE,
    tifffile.PHOTOMETRIC.MINISBLACK,
    tifffile.PHOTOMETRIC.RGB,
}
_INKS = {tifffile.PHOTOMETRIC.SEPARATED: "CMYK", tifffile.PHOTOMETRIC.CIELAB: "CIELAB"}
_WITHOUT_CODECS = {
    tifffile.COMPRESSION.NONE,
    tifffile.COMPRESSION.ADOBE_DEFLATE,
    tifffile.COMPRESSION.DEFLATE,
    tifffile.COMPRESSION.PACKBITS,
}


def read(path: Path) -> Stored:
    """The first picture of a TIFF file. Raises ScanError, or whatever a damaged file makes of a decoder."""
    with tifffile.TiffFile(path) as file:
        page = file.pages.first
        _refuse(path, page)
        several = ("the file holds several pictures; the first was read",) if len(file.pages) > 1 else ()
        if page.photometric not in _GREY_OR_RGB or not _is_decodable(page):
            return _by_pillow(path, page)
        pixels, notes = _opaque(_pixels(path, page))
        pixels = stored.upright(pixels, _value(page, stored.ORIENTATION, 1))
        return Stored(pixels, _ppi(page), (*several, *notes))


def _refuse(path: Path, page) -> None:
    stored.refuse_enormous(path, page.imagewidth, page.imagelength)
    stored.refuse_camera(path, {*(tag.code for tag in page.tags), *_value(page, stored.EXIF, {})})
    if page.photometric in _INKS:
        stored.refuse_colours(path, _INKS[page.photometric])
    if page.samplesperpixel > _MOST_CHANNELS:
        stored.refuse_colours(path, f"{page.samplesperpixel} channels")


def _value(page, tag: int, without):
    found = page.tags.get(tag)
    return without if found is None else found.value


def _is_decodable(page) -> bool:
    return page.compression in _WITHOUT_CODECS or find_spec("imagecodecs") is not None


def _by_pillow(path: Path, page) -> Stored:
    """Palettes and packed pictures; Pillow would make 8 bits of 16 in colour, and say nothing."""
    if page.bitspersample > 8:
        raise ScanError(
            f"{path}: compressed as {page.compression.name}, which takes one more package to read in 16 bits:"
            " pip install imagecodecs; or save the scan without compression"
        )
    found = stored_other.read(path, "TIFF")
    jpeg = (stored_other.JPEG,) if "JPEG" in page.compression.name else ()
    return replace(found, notes=(*jpeg, *found.notes))


def _pixels(path: Path, page) -> NDArray:
    # A file that lies in one piece is mapped: only what is looked at is read.
    plain = page.is_memmappable and page.dtype is not None and page.dtype.isnative
    pixels = tifffile.memmap(path, page=0, mode="r") if plain else page.asarray()
    pixels = pixels.astype(pixels.dtype.newbyteorder("="), copy=False)
    if page.planarconfig == tifffile.PLANARCONFIG.SEPARATE and pixels.ndim == 3:
        pixels = np.moveaxis(pixels, 0, -1)
    if page.photometric == tifffile.PHOTOMETRIC.MINISWHITE and pixels.dtype.kind == "u":
        pixels = np.iinfo(pixels.dtype).max - pixels
    return pixels


def _opaque(pixels: NDArray) -> tuple[NDArray, tuple[str, ...]]:
    has_alpha = pixels.ndim == 3 and pixels.shape[2] in (2, 4) and pixels.dtype.kind == "u"
    return stored.opaque(pixels) if has_alpha else (pixels, ())


def _ppi(page) -> tuple[float, float] | None:
    unit = _value(page, 296, _INCH)
    sides = [_value(page, tag, (0, 1)) for tag in (282, 283)]
    if unit not in (_INCH, _CENTIMETRE) or not all(part for side in sides for part in side):
        return None
    across, down = (top / below * (_CM_PER_INCH if unit == _CENTIMETRE else 1.0) for top, below in sides)
    return across, down
