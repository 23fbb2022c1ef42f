"""A table for one lens: the diameter of the opening at each mark, and the true stop at each draw."""

from dataclasses import dataclass

from footlight.camera.extension import Extension, from_draw, object_distance_mm
from footlight.errors import InputError
from footlight.quantities import FStop

USUAL_STOPS = ("f/5.6", "f/8", "f/11", "f/16", "f/22", "f/32", "f/45")
# Magnifications of the draws that are shown where none are given.
_USUAL_MAGNIFICATIONS = (0.0, 0.1, 0.25, 0.5, 0.75, 1.0)
_MOST_DRAWS = 8


@dataclass(frozen=True)
class Lens:
    """One of the printer's lenses.

    stops: its marks, each at least once. measured_mm: opening seen through the front [mm] by mark,
    where it was measured; elsewhere focal length over f-number. draws_mm: lens board to film [mm].
    """

    name: str
    focal_mm: float
    stops: tuple[FStop, ...]
    draws_mm: tuple[float, ...] = ()
    pupil_ratio: float = 1.0
    measured_mm: tuple[tuple[FStop, float], ...] = ()

    def __post_init__(self) -> None:
        if not self.stops:
            raise InputError(f"lens '{self.name}': no stops; give its marks, for example 'f/5.6', 'f/8'")
        if len(self.draws_mm) > _MOST_DRAWS:
            raise InputError(f"lens '{self.name}': {len(self.draws_mm)} draws; a card holds {_MOST_DRAWS}")
        for stop, _ in self.measured_mm:
            if stop not in self.stops:
                raise InputError(f"lens '{self.name}': {stop} was measured but is not among its stops")

    def at_infinity(self, stop: FStop) -> FStop:
        """The f-number of a mark at infinity: measured, or exact by the mark."""
        diameter_mm = dict(self.measured_mm).get(stop)
        return FStop.of_number(self.focal_mm / diameter_mm) if diameter_mm else stop


@dataclass(frozen=True)
class Column:
    """One draw: [mm], and what it does."""

    draw_mm: float
    extension: Extension
    distance_mm: float


@dataclass(frozen=True)
class Row:
    """One mark: its opening [mm], whether that was measured, and the true f-number at each draw."""

    stop: FStop
    diameter_mm: float
    measured: bool
    true: tuple[FStop, ...]


@dataclass(frozen=True)
class Card:
    """The whole table of one lens."""

    lens: Lens
    columns: tuple[Column, ...]
    rows: tuple[Row, ...]

    def as_dict(self) -> dict[str, object]:
        """For `--json`; units are in the keys."""
        return {
            "name": self.lens.name,
            "focal_mm": self.lens.focal_mm,
            "pupil_ratio": self.lens.pupil_ratio,
            "draws": [
                {
                    "draw_mm": round(column.draw_mm, 2),
                    "magnification": round(column.extension.magnification, 4),
                    "factor": round(column.extension.factor, 4),
                    "stops": round(column.extension.stops, 4),
                    "lens_to_subject_mm": round(column.distance_mm, 1)
                    if column.extension.magnification
                    else None,
                }
                for column in self.columns
            ],
            "stops": [
                {
                    "mark": str(row.stop),
                    "opening_mm": round(row.diameter_mm, 3),
                    "measured": row.measured,
                    "true_f_numbers": [round(stop.exact_value, 3) for stop in row.true],
                }
                for row in self.rows
            ],
        }


def card(lens: Lens) -> Card:
    """The table of a lens. Raises `InputError` for lengths that cannot be."""
    draws = lens.draws_mm or tuple(lens.focal_mm * (1 + m) for m in _USUAL_MAGNIFICATIONS)
    columns = tuple(_column(lens, draw_mm) for draw_mm in draws)
    return Card(lens, columns, tuple(_row(lens, stop, columns) for stop in lens.stops))


def _column(lens: Lens, draw_mm: float) -> Column:
    extension = from_draw(lens.focal_mm, draw_mm, lens.pupil_ratio)
    return Column(draw_mm, extension, object_distance_mm(lens.focal_mm, extension.magnification))


def _row(lens: Lens, stop: FStop, columns: tuple[Column, ...]) -> Row:
    found = lens.at_infinity(stop)
    return Row(
        stop,
        lens.focal_mm / found.exact_value,
        found is not stop,
        tuple(column.extension.true_stop(found) for column in columns),
    )
