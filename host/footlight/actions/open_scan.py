"""Open a scan with what is known of how it was made."""

import math
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from footlight.errors import InputError, field

if TYPE_CHECKING:
    from footlight.strips.find.tablet import Patch
    from footlight.strips.reading import Options
    from footlight.strips.scan.scan import Scan


@dataclass(frozen=True)
class ScanFile:
    """A scan to be read.

    ppi: where the file has none or a wrong one. tablet_d: densities of a grey tablet beside the strip [D].
    patches: (density [D], x, y [mm]) by hand. linear: codes are proportional to light, not sRGB.
    """

    path: Path
    ppi: float | None = None
    tablet_d: tuple[float, ...] = ()
    patches: tuple[tuple[float, float, float], ...] = ()
    linear: bool = False


def opened(scan: ScanFile) -> "Scan":
    """Its pixels. Raises ScanError, one line, for what is no scan."""
    from footlight.strips.scan.scan import load

    return load(scan.path, scan.ppi)


def calibrated(scan: ScanFile) -> "Options":
    """How it is to be read. Raises InputError where tablet and patches are both said."""
    from footlight.strips.reading import Options

    if scan.tablet_d and scan.patches:
        raise InputError(f"give either {field('tablet')} or {field('patches')}, not both")
    return Options(tablet_d=scan.tablet_d, patches=patches(scan), linear=scan.linear)


def patches(scan: ScanFile) -> "tuple[Patch, ...]":
    """Its known patches."""
    from footlight.strips.find.tablet import Patch

    return tuple(Patch(*values) for values in scan.patches)


def base_d(densities_d: tuple[float, ...]) -> tuple[float | None, float | None]:
    """Density of the bare base, and how much denser it is in blue than in green [D]; None: not known.

    densities_d: none, one, or those in red, green and blue [D]; the luminance is that of IEC 61966-2-1.
    """
    from footlight.strips.scan.calibration import LUMINANCE

    if len(densities_d) < 3:
        return (densities_d[0] if densities_d else None), None
    light = sum(share * 10**-density for share, density in zip(LUMINANCE, densities_d, strict=True))
    return -math.log10(light), densities_d[2] - densities_d[1]
