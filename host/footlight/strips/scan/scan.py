"""Open a scan: TIFF, PNG or JPEG, 8 or 16 bits, grey or RGB; refuse what cannot be one, in one line."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from footlight.errors import field
from footlight.strips.errors import ScanError
from footlight.strips.scan import stored_other, stored_tiff
from footlight.strips.scan.stored import Stored

LEAST_PPI, MOST_PPI = 150.0, 4800.0
_SQUARE = 0.01  # how far the two resolutions of a file may lie apart, as a share


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
    read = _reader(path)
    try:
        found = read(path)
    except ScanError:
        raise
    except MemoryError as error:
        raise ScanError(f"{path}: larger than the memory left; scan only the strip, at 600 ppi") from error
    except Exception as error:  # noqa: BLE001 - a damaged file may raise anything in the decoder; all is told
        raise ScanError(f"{path}: damaged or cut short ({_one_line(error)}); scan again") from error
    return make(path.name, found.pixels, ppi or _square(path, found.ppi), found.notes)


def _reader(path: Path) -> Callable[[Path], Stored]:
    """By how the file begins: names say nothing."""
    with path.open("rb") as file:
        start = file.read(8)
    if not start:
        raise ScanError(f"{path}: is empty; scan again")
    if start.startswith(stored_tiff.STARTS):
        return stored_tiff.read
    if start.startswith(stored_other.STARTS):
        return stored_other.read
    raise ScanError(f"{path}: no TIFF, PNG or JPEG; scan to TIFF")


def _square(path: Path, ppi: tuple[float, float] | None) -> float | None:
    if ppi is None:
        return None
    across, down = ppi
    if abs(across - down) > _SQUARE * max(across, down):
        raise ScanError(
            f"{path}: {across:.0f} ppi across and {down:.0f} down; scan with one resolution both ways, or"
            f" give the true one: {field('ppi')} 600"
        )
    return across


def make(name: str, pixels: NDArray, ppi: float | None, notes: tuple[str, ...] = ()) -> Scan:
    """A checked scan from an array; raises ScanError where it cannot be one."""
    if pixels.ndim == 3 and pixels.shape[2] == 1:
        pixels = pixels[:, :, 0]
    if pixels.ndim not in (2, 3) or (pixels.ndim == 3 and pixels.shape[2] != 3):
        raise ScanError(f"{name}: {pixels.shape} is neither grey nor RGB; scan in grey or RGB")
    if pixels.dtype not in (np.uint8, np.uint16):
        raise ScanError(f"{name}: pixels are {pixels.dtype}; allowed are 8 and 16 bits, unsigned")
    if not ppi:
        raise ScanError(f"{name}: the file says no resolution; give it, for example {field('ppi')} 600")
    if not LEAST_PPI <= ppi <= MOST_PPI:
        raise ScanError(
            f"{name}: {ppi:.0f} ppi; allowed is {LEAST_PPI:.0f} to {MOST_PPI:.0f}: scan at 600 ppi,"
            f" or correct it with {field('ppi')}"
        )
    return Scan(name, pixels, float(ppi), 8 * pixels.dtype.itemsize, notes)


def _one_line(error: Exception) -> str:
    said = " ".join(str(error).split())[:120]
    return said if len(said) > 3 else type(error).__name__
