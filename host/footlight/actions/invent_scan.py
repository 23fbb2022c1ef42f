"""Invent the scan of a strip or a print, to try the reading on."""

from pathlib import Path
from typing import Literal

from footlight.errors import InputError, field
from footlight.strips import need

Kind = Literal["strip", "flash", "flash-bands", "print"]
LEAST_PPI, MOST_PPI = 150, 1200


def invent_strip(
    target: Path,
    kind: Kind,
    totals_s: tuple[float, ...],
    present_s: float,
    *,
    family: str = "hits",
    ppi: float = 600,
    seed: int = 1,
) -> list[str]:
    """Write the scan of a strip on an invented paper -> the truth in words.

    totals_s: of every step [s]. present_s: about which they lie [s]. family: kind of curve.
    """
    _check(target, ppi)
    from footlight.strips.simulated import sample

    return sample.write(target, kind, family, totals_s, present_s, ppi, seed)


def invent_print(target: Path, ppi: float = 600, seed: int = 1) -> list[str]:
    """Write the scan of an invented print -> the truth in words."""
    _check(target, ppi)
    from footlight.strips.simulated import sample

    return sample.write_print(target, ppi, seed)


def _check(target: Path, ppi: float) -> None:
    need.scans()
    if target.suffix.lower() not in (".tif", ".tiff"):
        raise InputError(f"{field('target')}: '{target.name}' must end in .tif")
    if not LEAST_PPI <= ppi <= MOST_PPI:
        raise InputError(f"{field('ppi')}: {ppi:g}; allowed is {LEAST_PPI} to {MOST_PPI}")
