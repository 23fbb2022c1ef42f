"""A grey tablet or single patches in the same scan: where they are, and what their codes are."""

from dataclasses import dataclass

import numpy as np

from footlight.errors import field
from footlight.strips.errors import ScanError
from footlight.strips.find.place import Place
from footlight.strips.measure import cell_measure
from footlight.strips.scan import calibration
from footlight.strips.scan.calibration import Calibration
from footlight.strips.scan.scan import Scan
from footlight.strips.scan.uneven import Surface

_PATCH_MM = 4.0
_INSET = 0.2
_MOST_UNEVEN_D = 0.05


@dataclass(frozen=True)
class Patch:
    """A patch by hand: its density [D] and the middle of it in the scan [mm from the left, from the top]."""

    density_d: float
    x_mm: float
    y_mm: float


def by_tablet(
    scan: Scan, piece: Place | None, densities_d: tuple[float, ...], base: Calibration, uneven: Surface
) -> Calibration:
    """Calibrate by a tablet: patches of one width along its longer side, lightest or darkest first."""
    if piece is None:
        raise ScanError(
            f"{scan.name}: no second piece of paper is seen; lay the tablet 5 mm or more from the strip, or"
            f" give its patches by hand: {field('patches')} '0.06 at 12,80 mm'"
        )
    count = len(densities_d)
    if count < calibration.LEAST_PATCHES:
        raise ScanError(
            f"{scan.name}, tablet: one density calibrates nothing; give every patch of it, two at least, such"
            f" as {field('tablet')} '0.06, 0.5, 1.0, 1.5, 2.0'"
        )
    pitch, width = piece.length_mm / count, piece.width_mm
    across = (_INSET * width, (1 - _INSET) * width)
    values = np.array(
        [
            _value(scan, piece, ((k + _INSET) * pitch, (k + 1 - _INSET) * pitch), across, base, uneven)
            for k in range(count)
        ]
    )
    _refuse_straddling(scan, piece, count, base)
    known = np.array(densities_d)
    if (values[0, 0] < values[-1, 0]) != (known[0] > known[-1]):
        known = known[::-1]
    return calibration.by_patches(base, values, known, f"{scan.name}, tablet")


def _refuse_straddling(scan: Scan, piece: Place, count: int, base: Calibration) -> None:
    """Each patch must be even: one that holds an edge means that the tablet has another number of patches."""
    pitch, width = piece.length_mm / count, piece.width_mm
    across = (_INSET * width, (1 - _INSET) * width)
    for place in range(count):
        along = ((place + _INSET) * pitch, (place + 1 - _INSET) * pitch)
        levels = _across_a_patch(scan, piece, along, across, base)
        if np.ptp(levels) > _MOST_UNEVEN_D:
            raise ScanError(
                f"{scan.name}, tablet: patch {place + 1} of {count} is not even ({levels.min():.2f} to"
                f" {levels.max():.2f} D): the tablet has another number of patches than the {count} densities"
                " given; give one for every patch"
            )


def _across_a_patch(scan: Scan, piece: Place, along, across, base: Calibration) -> np.ndarray:
    """Rough density of quarters of a patch, along the tablet [D]."""
    window = cell_measure.cell(
        scan, piece, along, across, min(along[1] - along[0], across[1] - across[0], 2.0)
    )
    plane = window.codes if window.codes.ndim == 2 else window.codes[:, :, 1]
    table = base.tables[len(base.tables) // 2]
    quarters = np.array_split(table[plane].mean(axis=0, dtype=float), 4)
    return np.array([float(calibration.density(part.mean())) for part in quarters])


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
    """Mean reflectance of each channel by `base`, uneven light taken out."""
    window = cell_measure.cell(
        scan, piece, along, across, min(along[1] - along[0], across[1] - across[0], 2.0)
    )
    planes = [window.codes] if window.codes.ndim == 2 else np.moveaxis(window.codes, 2, 0)
    means = [table[plane].mean(dtype=float) for table, plane in zip(base.tables, planes, strict=True)]
    return np.array(means) * 10.0 ** -float(uneven.at(window.centre_mm))
