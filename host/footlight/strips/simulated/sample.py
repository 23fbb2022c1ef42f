"""One invented strip as a TIFF, to try the reading on."""

from pathlib import Path

import numpy as np

from footlight.errors import InputError
from footlight.quantities import format_seconds
from footlight.strips.simulated import curves, paper, scanner

_LEAST_WINDOW_STOPS = 1.2  # a sample is there to show advice


def write(
    target: Path, family: str, stops: list[float], present_s: float, ppi: float, seed: int
) -> list[str]:
    """Write the scan; gives the truth in words. stops: of every step from the present dose [stops]."""
    import tifffile

    if family not in curves.FAMILIES:
        raise InputError(f"--family: '{family}'; allowed are {', '.join(curves.FAMILIES)}")
    rng = np.random.default_rng(seed)
    made = paper.drawn(family, rng)
    while made.clean_stops(side=10) - made.full_stops() < _LEAST_WINDOW_STOPS:
        made = paper.drawn(family, rng)
    offset = made.full_stops() + rng.uniform(-0.8, 0.8)
    sheet = scanner.Sheet(tuple(stop + offset for stop in stops), 15.4, 15.4)
    device = scanner.Scanner(ppi=ppi, skew_deg=float(rng.uniform(-3, 3)))
    scanned = scanner.scan(made, sheet, device, rng)
    try:
        tifffile.imwrite(target, scanned.scan.pixels, resolution=(ppi, ppi), resolutionunit="INCH")
    except OSError as error:
        raise InputError(f"{target}: {error.strerror}; name another place") from error
    full, clean = (present_s * 2 ** (at - offset) for at in (made.full_stops(), made.clean_stops(side=10)))
    tablet = ", ".join(f"{density:g}" for density in scanned.tablet_d)
    return [
        f"{target}: an invented paper, family '{family}'; base {made.base_d:.3f} D",
        f'tablet: "{tablet}"',
        f"truth: black is full from {format_seconds(full)}, white is clean to {format_seconds(clean)}",
    ]
