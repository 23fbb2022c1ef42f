"""Plain places of a print: density, graininess, mottle; a strip is not needed for that."""

from dataclasses import dataclass

import numpy as np

from footlight.strips import calibration, measure, tablet, uneven
from footlight.strips.cells import Cell
from footlight.strips.errors import ScanError
from footlight.strips.place import Place
from footlight.strips.scan import Scan

Box = tuple[float, float, float, float]  # x, y, width, height [mm]


@dataclass(frozen=True)
class Spots:
    """name → what was measured there."""

    cells: dict[str, Cell]
    notes: tuple[str, ...]

    def as_dict(self) -> dict[str, object]:
        """For `--json`; densities in D."""
        return {"places": {name: _told(cell) for name, cell in self.cells.items()}, "notes": list(self.notes)}

    def lines(self) -> list[str]:
        """A line a place."""
        return [
            f"{name}: {cell.density_d:.3f} D, graininess {cell.measured.graininess_d:.4f} D, mottle"
            f" {cell.measured.mottle_d:.4f} D over {cell.measured.tiles} tiles, {cell.plain_share:.0%} plain"
            for name, cell in self.cells.items()
        ]


def _told(cell: Cell) -> dict[str, object]:
    return {
        "density_d": round(cell.density_d, 4),
        "graininess_d": round(cell.measured.graininess_d, 4),
        "mottle_d": round(cell.measured.mottle_d, 4),
        "tiles": cell.measured.tiles,
        "plain_share": round(cell.plain_share, 3),
        "channels_d": [round(value, 4) for value in cell.channels_d],
    }


def measure_spots(
    scan: Scan, boxes: dict[str, Box], patches: tuple[tablet.Patch, ...], linear: bool
) -> Spots:
    """Measure plain places. Raises ScanError for a place outside the scan."""
    base = calibration.by_encoding(scan, linear)
    scale = tablet.by_hand(scan, patches, base, uneven.none()) if patches else base
    cells = {name: _spot(scan, name, box, scale) for name, box in boxes.items()}
    return Spots(cells, (*scan.notes, *scale.notes))


def _spot(scan: Scan, name: str, box: Box, scale: calibration.Calibration) -> Cell:
    x, y, wide, high = box
    height, width = (n / scan.px_per_mm for n in scan.pixels.shape[:2])
    if x + wide > width or y + high > height:
        raise ScanError(
            f"{scan.name}: {name} reaches out of the scan, which is {width:.0f} × {height:.0f} mm"
        )
    place = Place(np.array([x, y]), np.array([1.0, 0.0]), np.array([0.0, 1.0]), wide, high)
    return measure.one(scan, place, scale, uneven.none(), name, 0, (0.0, wide), (0.0, high))
