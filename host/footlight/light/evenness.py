"""Fall-off: how much less light there is away from the middle of the sheet.

Laws, relative to the axis, for a flat sheet square to it:

    lens   cos⁴θ  a lens pupil, or any small flat source facing the sheet
    bare   cos³θ  a bare lamp that shines alike in all directions, taken as a point
    disc   a near flat source of diameter s (Foote's formula; agrees with numerical integration)

They describe the geometry alone; condensers, vignetting and dust come on top and are found with a strip.
"""

import math
from dataclasses import dataclass
from typing import Literal, NamedTuple

from footlight.errors import InputError
from footlight.light.setup import Arrangement
from footlight.quantities import Sheet

Law = Literal["lens", "bare", "disc"]
_POWERS = {"lens": 4, "bare": 3}
_MOST_HEIGHT_MM = 100_000.0


@dataclass(frozen=True)
class Source:
    """What lights the sheet: the law, and for a disc its diameter [mm]."""

    law: Law
    diameter_mm: float = 0.0

    def __post_init__(self) -> None:
        if self.law == "disc" and not 0 < self.diameter_mm < math.inf:
            raise InputError("source: a disc needs its diameter, for example '60 mm'")

    def relative(self, height_mm: float, off_axis_mm: float) -> float:
        """Light at `off_axis_mm` [mm] from the axis, as a fraction of that on it; height [mm]."""
        if not 0 < height_mm < math.inf:
            raise InputError(f"height: {height_mm:g} mm must be more than zero, for example '620 mm'")
        if self.law == "disc":
            return _disc(height_mm, off_axis_mm, self.diameter_mm / 2) / _disc(
                height_mm, 0.0, self.diameter_mm / 2
            )
        return math.cos(math.atan2(off_axis_mm, height_mm)) ** _POWERS[self.law]

    def loss_stops(self, height_mm: float, off_axis_mm: float) -> float:
        """Light missing at `off_axis_mm` [mm] from the axis [stops]; height [mm]."""
        return -math.log2(self.relative(height_mm, off_axis_mm))


def _disc(z_mm: float, off_mm: float, r_mm: float) -> float:
    """Illuminance from a uniform disc over πL: ½[1 − (ρ² + z² − r²)/√((ρ² + z² + r²)² − 4r²ρ²)].

    Written without the difference of two near numbers, so that a small disc keeps its figures.
    """
    across = off_mm**2 + z_mm**2
    root = math.sqrt((across + r_mm**2) ** 2 - 4 * r_mm**2 * off_mm**2)
    return 2 * r_mm**2 * z_mm**2 / (root * (root + across - r_mm**2))


class Evenness(NamedTuple):
    """Light missing at the places of one sheet that matter [stops]."""

    sheet: Sheet
    height_mm: float
    source: Source
    short_edge_stops: float
    long_edge_stops: float
    corner_stops: float

    @property
    def summary(self) -> str:
        """`8x10 at 500 mm: corners -0.29 stop`."""
        return f"{self.sheet.name} at {self.height_mm:.0f} mm: corners -{self.corner_stops:.2f} stop"


def source_of(at: Arrangement) -> Source:
    """The law of fall-off of an arrangement."""
    if at.lens is not None:
        return Source("lens")
    return Source("disc", at.source_mm) if at.source_mm else Source("bare")


def of_sheet(sheet: Sheet, height_mm: float, source: Source) -> Evenness:
    """Evenness of a sheet centred under the source; height: pupil or lamp to sheet [mm]."""
    short_mm, long_mm = sorted((sheet.width_mm, sheet.height_mm))
    edge_across, edge_along, corner = (
        source.loss_stops(height_mm, off_mm) for off_mm in (short_mm / 2, long_mm / 2, sheet.diagonal_mm / 2)
    )
    return Evenness(sheet, height_mm, source, edge_along, edge_across, corner)


def height_for_loss_mm(sheet: Sheet, most_stops: float, source: Source) -> float:
    """The least height [mm] at which the corners miss no more than `most_stops` [stops].

    Raises `InputError` for a tolerance of zero or less, and where more than 100 m would be needed.
    """
    if not 0 < most_stops < math.inf:
        raise InputError(f"tolerance: {most_stops:g} stop must be more than zero, for example '0.1 stop'")
    off_mm = sheet.diagonal_mm / 2
    if source.law == "disc":
        return _bisected(source, off_mm, most_stops)
    cosine = 2 ** (-most_stops / _POWERS[source.law])
    return off_mm * cosine / math.sqrt(1 - cosine**2)


def _bisected(source: Source, off_mm: float, most_stops: float) -> float:
    """A large disc evens out near by too, but only the far branch is steady: search it downwards."""
    high = _MOST_HEIGHT_MM
    if source.loss_stops(high, off_mm) > most_stops:
        raise InputError(f"tolerance: {most_stops:g} stop would need more than 100 m; allow more")
    low = high
    while low > 1 and source.loss_stops(low, off_mm) <= most_stops:
        high, low = low, low / 1.2
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (low, middle) if source.loss_stops(middle, off_mm) <= most_stops else (middle, high)
    return high


def grid_stops(
    sheet: Sheet, height_mm: float, source: Source, columns: int = 7, rows: int = 9
) -> list[list[float]]:
    """Loss [stops] on a grid over the sheet from edge to edge, row by row, for a table without pictures."""
    xs = [sheet.width_mm * (i / (columns - 1) - 0.5) for i in range(columns)]
    ys = [sheet.height_mm * (i / (rows - 1) - 0.5) for i in range(rows)]
    return [[source.loss_stops(height_mm, math.hypot(x, y)) for x in xs] for y in ys]
