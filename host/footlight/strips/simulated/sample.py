"""One invented strip or print as a TIFF, to try the reading on."""

import math
from pathlib import Path

import numpy as np

from footlight.errors import InputError, field
from footlight.quantities import format_seconds
from footlight.strips.scan.scan import Scan
from footlight.strips.simulated import curves, flashed, paper, printed, scanner

_LEAST_WINDOW_STOPS = 1.2  # a sample is there to show advice


def write(
    target: Path, kind: str, family: str, totals_s: tuple[float, ...], present_s: float, ppi: float, seed: int
) -> list[str]:
    """Write the scan of a strip of that kind; gives the truth in words. totals_s: of every step [s]."""
    rng = np.random.default_rng(seed)
    device = scanner.Scanner(ppi=ppi, skew_deg=float(rng.uniform(-3, 3)))
    if kind == "strip":
        scanned, *truth = _strip(family, totals_s, present_s, device, rng)
    elif kind == "flash":
        at_s = present_s * 2 ** rng.uniform(-0.8, 0.8)
        scanned = flashed.quick(totals_s, at_s, device, rng).scanned
        truth = ["a pre-flash strip, developed and fixed", f"paper begins to see at {format_seconds(at_s)}"]
    else:
        at_s = present_s * 2 ** rng.uniform(-0.3, 0.3)
        scanned = flashed.deciding(totals_s, at_s, device, rng).scanned
        truth = ["a strip of flash bands, reversed", f"{format_seconds(at_s)} of flash costs 0.06 D of black"]
    _save(target, scanned.scan)
    tablet = ", ".join(f"{density:g}" for density in scanned.tablet_d)
    return [f"{target}: {truth[0]}", f'tablet: "{tablet}"', f"truth: {truth[1]}"]


def write_print(target: Path, ppi: float, seed: int) -> list[str]:
    """Write the scan of a print with a rebate; gives the truth in words."""
    made = printed.scanned(ppi, np.random.default_rng(seed))
    _save(target, made.scan)
    return [
        f"{target}: an invented print with a black rebate",
        'patches: "0.06 at 6, 6 mm" and "1.9 at 14, 6 mm"',
        f"truth: rebate {made.rebate_d:.2f} D, plain highlight {made.highlight_d:.3f} D",
    ]


def _strip(family: str, totals_s, present_s: float, device: scanner.Scanner, rng: np.random.Generator):
    """(scan, what it is, the truth)."""
    if family not in curves.FAMILIES:
        raise InputError(f"{field('family')}: '{family}'; allowed are {', '.join(curves.FAMILIES)}")
    made = paper.drawn(family, rng)
    while made.clean_stops(side=10) - made.full_stops() < _LEAST_WINDOW_STOPS:
        made = paper.drawn(family, rng)
    offset = made.full_stops() + rng.uniform(-0.8, 0.8)
    stops = tuple(math.log2(total / present_s) + offset if total else -math.inf for total in totals_s)
    scanned = scanner.scan(made, scanner.Sheet(stops, 15.4, 15.4), device, rng)
    full, clean = (present_s * 2 ** (at - offset) for at in (made.full_stops(), made.clean_stops(side=10)))
    return (
        scanned,
        f"an invented paper, family '{family}'; base {made.base_d:.3f} D",
        f"black is full from {format_seconds(full)}, white is clean to {format_seconds(clean)}",
    )


def _save(target: Path, scan: Scan) -> None:
    import tifffile

    try:
        tifffile.imwrite(target, scan.pixels, resolution=(scan.ppi, scan.ppi), resolutionunit="INCH")
    except OSError as error:
        raise InputError(f"{target}: {error.strerror}; name another place") from error
