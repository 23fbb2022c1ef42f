"""Plain places of a print: density, graininess, mottle; a strip is not needed for that."""

from dataclasses import dataclass

import numpy as np

from footlight.errors import field
from footlight.strips.errors import ScanError
from footlight.strips.find import outline, plain, tablet
from footlight.strips.find.place import Place
from footlight.strips.measure import cell_measure
from footlight.strips.measure.cells import Cell
from footlight.strips.scan import border, calibration, overview, reduced, uneven
from footlight.strips.scan.scan import Scan

Box = tuple[float, float, float, float]  # x, y, width, height [mm]
NAMES = ("rebate", "highlight")


@dataclass(frozen=True)
class Spots:
    """name → what was measured there, and where [mm in the scan]. found: names of those that were found, not
    pointed at. paper_d: density of the bare base, None where it is not known [D]."""

    cells: dict[str, Cell]
    places: dict[str, Place]
    found: tuple[str, ...]
    notes: tuple[str, ...]
    view: overview.Overview
    paper_d: float | None = None

    @property
    def d_max(self) -> float | None:
        """The fullest black [D]."""
        return self._of("rebate", lambda cell: cell.density_d)

    @property
    def veil_d(self) -> float | None:
        """What the highlight has above the bare base [D]."""
        base_d = self.paper_d
        if base_d is None:
            return None
        return self._of("highlight", lambda cell: cell.density_d - base_d)

    @property
    def mottle_d(self) -> float | None:
        """Mottle of the highlight [D]."""
        return self._of("highlight", lambda cell: cell.measured.mottle_d)

    def _of(self, name: str, value) -> float | None:
        return round(float(value(self.cells[name])), 4) if name in self.cells else None

    def as_dict(self) -> dict[str, object]:
        """For `--json`; densities in D, places in mm."""
        return {
            "d_max": self.d_max,
            "veil_d": self.veil_d,
            "mottle_d": self.mottle_d,
            "paper_d": self.paper_d,
            "places": {name: self._told(name) for name in self.cells},
            "notes": list(self.notes),
        }

    def lines(self) -> list[str]:
        """What was taken and what it shows."""
        said = [self._line(name) for name in self.cells]
        if "highlight" in self.cells:
            veil = f"veil {self.veil_d:.3f} D above the bare base" if self.veil_d is not None else (
                f"veil not known: give the density of the bare base, {field('paper')}"
            )  # fmt: skip
            said.append(veil)
        return said

    def _line(self, name: str) -> str:
        cell, (x, y) = self.cells[name], self._corner(name)
        how = "found" if name in self.found else "as you say"
        size = f"{self.places[name].length_mm:.0f} × {self.places[name].width_mm:.0f} mm"
        return (
            f"{name}, {how} at {x:.0f}, {y:.0f} mm, {size}: {cell.density_d:.3f} D, graininess"
            f" {cell.measured.graininess_d:.4f} D, mottle {cell.measured.mottle_d:.4f} D over"
            f" {cell.measured.tiles} tiles, {cell.plain_share:.0%} plain{_colours(cell)}"
        )

    def _corner(self, name: str) -> tuple[float, float]:
        """Left and top of a place in the scan [mm]."""
        place = self.places[name]
        corners = place.at(np.array([0, place.length_mm] * 2), np.array([0, 0, *[place.width_mm] * 2]))
        left, top = corners.min(axis=0)
        return float(left), float(top)

    def _told(self, name: str) -> dict[str, object]:
        cell, place = self.cells[name], self.places[name]
        return {
            "found": name in self.found,
            "left_top_mm": [round(value, 1) for value in self._corner(name)],
            "size_mm": [round(place.length_mm, 1), round(place.width_mm, 1)],
            "density_d": round(cell.density_d, 4),
            "graininess_d": round(cell.measured.graininess_d, 4),
            "mottle_d": round(cell.measured.mottle_d, 4),
            "tiles": cell.measured.tiles,
            "plain_share": round(cell.plain_share, 3),
            "channels_d": [round(value, 4) for value in cell.channels_d],
        }


def _colours(cell: Cell) -> str:
    if len(cell.channels_d) < 3:
        return ""
    return "; red, green, blue {:.3f}, {:.3f}, {:.3f} D".format(*cell.channels_d)


def measure_spots(
    scan: Scan,
    boxes: dict[str, Box],
    patches: tuple[tablet.Patch, ...],
    linear: bool,
    paper_d: float | None = None,
) -> Spots:
    """Measure rebate and highlight; what is not in `boxes` is found.

    Raises ScanError for a place outside the scan, and where nothing plain is there.
    """
    scan = reduced.to_working(scan)
    base = calibration.by_encoding(scan, linear)
    view = overview.make(scan, base.tables[len(base.tables) // 2])
    wanted = tuple(name for name in NAMES if name not in boxes)
    sheet, surface = _sheet(view, scan.name) if wanted else (None, uneven.none())
    scale = tablet.by_hand(scan, patches, base, surface) if patches else base
    places = {name: _boxed(scan, name, box) for name, box in boxes.items()}
    missing = []
    if sheet is not None:
        for name in wanted:
            try:
                places[name] = _found(view, sheet, name, scan.name)
            except ScanError as error:
                missing.append(error)
    if not places:
        raise missing[0]
    cells = {name: _cell(scan, name, places[name], scale, surface) for name in NAMES if name in places}
    for name, cell in cells.items():
        _refuse_uneven(scan.name, name, cell)
    notes = (*scan.notes, *scale.notes, *((surface.note,) if surface.note else ()))
    found = tuple(name for name in wanted if name in places)
    return Spots(cells, places, found, (*map(str, missing), *notes), view, paper_d)


def _sheet(view: overview.Overview, name: str) -> tuple[Place, uneven.Surface]:
    """The print, which is the largest piece of paper in the scan, and what uneven light there is."""
    clear = border.painted_over(view)
    outlines = outline.find(clear, name)
    return outlines.pieces[0], uneven.from_background(clear, outlines.background(clear))


def _found(view: overview.Overview, sheet: Place, name: str, scan_name: str) -> Place:
    spot = {"rebate": plain.rebate, "highlight": plain.highlight}[name](view, sheet, scan_name)
    (a, b), (c, d) = spot.along_mm, spot.across_mm
    return Place(sheet.at(a, c), sheet.along, sheet.across, b - a, d - c)


def _boxed(scan: Scan, name: str, box: Box) -> Place:
    x, y, wide, high = box
    height, width = (n / scan.px_per_mm for n in scan.pixels.shape[:2])
    if x + wide > width or y + high > height:
        raise ScanError(
            f"{scan.name}: {name} reaches out of the scan, which is {width:.0f} × {height:.0f} mm"
        )
    return Place(np.array([x, y]), np.array([1.0, 0.0]), np.array([0.0, 1.0]), wide, high)


def _cell(
    scan: Scan, name: str, place: Place, scale: calibration.Calibration, surface: uneven.Surface
) -> Cell:
    along, across = (0.0, place.length_mm), (0.0, place.width_mm)
    return cell_measure.one(scan, place, scale, surface, name, 0, along, across)


def _refuse_uneven(scan_name: str, name: str, cell: Cell) -> None:
    """A place with a picture in it tells nothing of mottle."""
    if cell.plain_share < 0.5:
        raise ScanError(
            f"{scan_name}: {name}: only {cell.plain_share:.0%} of it is plain; point at a plainer place"
        )
