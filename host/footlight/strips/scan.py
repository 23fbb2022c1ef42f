"""Open a scan: TIFF, PNG or JPEG, 8 or 16 bits, grey or RGB; refuse what cannot be one, in one line."""

import warnings
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from footlight.strips.errors import ScanError

MOST_PIXELS = 200_000_000
LEAST_PPI, MOST_PPI = 150.0, 4800.0
# EXIF tags that a camera writes and a scanner has no reason to: ExposureTime, FNumber, FocalLength.
_CAMERA_TAGS = {33434, 33437, 37386}
_EXIF = 34665
_CM_PER_INCH = 2.54


@dataclass(frozen=True)
class Scan:
    """A scan as it was read.

    pixels: rows × columns (grey) or rows × columns × 3, unsigned, 8 or 16 bits; maybe mapped from the file.
    ppi: pixels per inch. bits: 8 or 16, as stored. notes: what the reader should know.
    """

    name: str
    pixels: NDArray
    ppi: float
    bits: int
    notes: tuple[str, ...] = ()

    @property
    def px_per_mm(self) -> float:
        """Pixels per millimetre."""
        return self.ppi / 25.4

    @property
    def channels(self) -> int:
        """1 or 3."""
        return 1 if self.pixels.ndim == 2 else 3


def load(path: Path, ppi: float | None = None) -> Scan:
    """The scan in a file. ppi: resolution [1/in] where the file has none, or has a wrong one.

    Raises ScanError for a file that is missing, damaged, enormous, no picture, a camera's, or without a
    resolution.
    """
    if not path.is_file():
        raise ScanError(f"{path}: no such file; name a TIFF, PNG or JPEG scan of the dry strip")
    with path.open("rb") as file:
        start = file.read(32)
    reader = _tiff if start[:4] in _TIFF_STARTS else _other
    try:
        pixels, found_ppi, notes = reader(path, start)
    except ScanError:
        raise
    except Exception as error:  # noqa: BLE001 - a damaged file may raise anything in the decoder; all is told
        raise ScanError(f"{path}: cannot be read as a picture ({_one_line(error)}); scan again") from error
    return make(path.name, pixels, ppi or found_ppi, notes)


_TIFF_STARTS = (b"II*\0", b"MM\0*", b"II+\0", b"MM\0+")


def make(name: str, pixels: NDArray, ppi: float | None, notes: tuple[str, ...] = ()) -> Scan:
    """A checked scan from an array; raises ScanError where it cannot be one."""
    if pixels.ndim == 3 and pixels.shape[2] in (2, 4):
        pixels = pixels[:, :, : pixels.shape[2] - 1]
    if pixels.ndim == 3 and pixels.shape[2] == 1:
        pixels = pixels[:, :, 0]
    if pixels.ndim not in (2, 3) or (pixels.ndim == 3 and pixels.shape[2] != 3):
        raise ScanError(f"{name}: {pixels.shape} is neither grey nor RGB; scan in grey or RGB")
    if pixels.dtype not in (np.uint8, np.uint16):
        raise ScanError(f"{name}: pixels are {pixels.dtype}; allowed are 8 and 16 bits, unsigned")
    if not ppi:
        raise ScanError(f"{name}: the file says no resolution; give it, for example --ppi 600")
    if not LEAST_PPI <= ppi <= MOST_PPI:
        raise ScanError(
            f"{name}: {ppi:.0f} ppi; allowed is {LEAST_PPI:.0f} to {MOST_PPI:.0f}: scan at 600 ppi,"
            " or correct it with --ppi"
        )
    return Scan(name, pixels, float(ppi), 8 * pixels.dtype.itemsize, notes)


def _refuse_enormous(path: Path, width: int, height: int) -> None:
    if width * height > MOST_PIXELS:
        raise ScanError(
            f"{path}: {width} × {height} pixels; at most {MOST_PIXELS / 1e6:.0f} million are read:"
            " scan only the strip, at 600 ppi"
        )


def _tiff(path: Path, start: bytes) -> tuple[NDArray, float | None, tuple[str, ...]]:
    import tifffile

    del start
    with tifffile.TiffFile(path) as file:
        page = file.pages.first
        _refuse_enormous(path, page.imagewidth, page.imagelength)
        ppi = _tiff_ppi(page)
        if page.photometric == tifffile.PHOTOMETRIC.MINISWHITE:
            raise ScanError(f"{path}: stored as a negative (white is zero); scan as a positive")
        # A file that lies in one piece is mapped: only what is looked at is read.
        plain = page.is_memmappable and page.dtype is not None and page.dtype.isnative
        pixels = tifffile.memmap(path, page=0, mode="r") if plain else page.asarray()
        if page.planarconfig == tifffile.PLANARCONFIG.SEPARATE and pixels.ndim == 3:
            pixels = np.moveaxis(pixels, 0, -1)
        several = ("the file holds several pictures; the first was read",) if len(file.pages) > 1 else ()
    return pixels, ppi, several


def _tiff_ppi(page) -> float | None:
    across = page.tags.get("XResolution")
    unit = page.tags.get("ResolutionUnit")
    if across is None or not across.value[1] or (unit is not None and unit.value not in (2, 3)):
        return None
    per_unit = across.value[0] / across.value[1]
    return per_unit * (_CM_PER_INCH if unit is not None and unit.value == 3 else 1.0)


def _other(path: Path, start: bytes) -> tuple[NDArray, float | None, tuple[str, ...]]:
    from PIL import Image

    with warnings.catch_warnings():
        warnings.simplefilter("ignore", Image.DecompressionBombWarning)
        with Image.open(path, formats=("PNG", "JPEG")) as picture:
            _refuse_enormous(path, *picture.size)
            exif = picture.getexif()
            if _CAMERA_TAGS & (set(exif) | set(exif.get_ifd(_EXIF))):
                raise ScanError(
                    f"{path}: a camera's photograph, whose light and lens spoil the densities;"
                    " lay the dry strip on a scanner"
                )
            dpi = picture.info.get("dpi")
            pixels = np.asarray(picture if picture.mode in _MODES else picture.convert("RGB"))
    if pixels.dtype == np.int32:
        pixels = pixels.astype(np.uint16)
    return pixels, float(dpi[0]) if dpi else None, _notes(start, picture.format, pixels)


_MODES = {"L", "RGB", "I;16", "I;16B", "I;16L", "I"}


def _notes(start: bytes, form: str | None, pixels: NDArray) -> tuple[str, ...]:
    if form == "JPEG":
        return ("JPEG throws fine detail away: graininess is not to be trusted; scan to TIFF",)
    if form == "PNG" and start[24] == 16 and pixels.dtype == np.uint8:
        return ("a PNG of 16 bits in colour is read with 8 bits here; save it as TIFF",)
    return ()


def _one_line(error: Exception) -> str:
    return " ".join(str(error).split())[:120] or type(error).__name__
