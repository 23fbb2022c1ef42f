"""A grey tablet or single patches in the same scan: where they are, and what their codes are."""

from dataclasses import dataclass

import numpy as np

from footlight.strips.errors import ScanError
from footlight.strips.find.comb import Comb
from footlight.strips.find.place import Place
from footlight.strips.measure import cell_measure
from footlight.strips.scan import calibration
from footlight.strips.scan.calibration import Calibration
from footlight.strips.scan.scan import Scan
from footlight.strips.scan.uneven import Surface

_PATCH_MM = 4.0


@dataclass(frozen=True)
class Patch:
    """A patch by hand: its density [D] and the middle of it in the scan [mm from the left, from the top]."""

    density_d: float
    x_mm: float
    y_mm: float


def by_tablet(
    scan: Scan, found: Comb, densities_d: tuple[float, ...], base: Calibration, uneven: Surface
) -> Calibration:
    """Calibrate by a tablet whose patches were found, in the order in which the densities are given."""
    known = np.array(densities_d)
    values = np.array(
        [_value(scan, found.piece, *found.patch(number), base, uneven) for number in range(len(known))]
    )
    known = known[::-1] if found.reversed else known
    return calibration.by_patches(base, values, known, f"{scan.name}, tablet")


def by_hand(scan: Scan, patches: tuple[Patch, ...], base: Calibration, uneven: Surface) -> Calibration:
    """Calibrate by patches that the printer points at."""
    half = _PATCH_MM / 2
    height, width = (n / scan.px_per_mm for n in scan.pixels.shape[:2])
    values = []
    for patch in patches:
        if not (half <= patch.x_mm <= width - half and half <= patch.y_mm <= height - half):
            raise ScanError(
                f"{scan.name}: patch {patch.x_mm:g},{patch.y_mm:g} mm: outside {width:.0f} × {height:.0f} mm"
            )
        corner = np.array([patch.x_mm - half, patch.y_mm - half])
        square = Place(corner, np.array([1.0, 0.0]), np.array([0.0, 1.0]), _PATCH_MM, _PATCH_MM)
        values.append(_value(scan, square, (0, _PATCH_MM), (0, _PATCH_MM), base, uneven))
    known = np.array([patch.density_d for patch in patches])
    return calibration.by_patches(base, np.array(values), known, f"{scan.name}, patches")


def _value(scan: Scan, piece: Place, along, across, base: Calibration, uneven: Surface) -> np.ndarray:
    """Median reflectance of each channel by `base`, so that no speck counts; uneven light taken out."""
    window = cell_measure.cell(
        scan, piece, along, across, min(along[1] - along[0], across[1] - across[0], 2.0)
    )
    planes = [window.codes] if window.codes.ndim == 2 else np.moveaxis(window.codes, 2, 0)
    means = [float(np.median(table[plane])) for table, plane in zip(base.tables, planes, strict=True)]
    return np.array(means) * 10.0 ** -float(uneven.at(window.centre_mm))
