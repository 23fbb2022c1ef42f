"""What was found of a strip, as lines to be drawn on its scan [mm]."""

from dataclasses import dataclass

from footlight.strips.result import Found

Point = tuple[float, float]


@dataclass(frozen=True)
class Line:
    """From one point to another [mm in the scan]. at_mm: along the strip [mm]. seen: not by spacing alone."""

    start: Point
    end: Point
    at_mm: float
    seen: bool = True


@dataclass(frozen=True)
class Drawing:
    """corners: zero end first, around the strip. steps, bands: their edges, those at the rims included.
    length_mm: of the strip [mm]."""

    corners: tuple[Point, ...]
    steps: tuple[Line, ...]
    bands: tuple[Line, ...]
    length_mm: float


def drawing_of(found: Found) -> Drawing:
    """Corners, steps and bands of a strip as lines."""
    zero, far, far_across, zero_across = found.corners_mm
    length_mm, width_mm = _apart(zero, far), _apart(zero, zero_across)
    steps = tuple(
        Line(_on(zero, far, at / length_mm), _on(zero_across, far_across, at / length_mm), at, seen)
        for at, seen in zip(found.step_edges_mm, found.steps_seen, strict=True)
    )
    bands = tuple(
        Line(_on(zero, zero_across, at / width_mm), _on(far, far_across, at / width_mm), at)
        for at in found.band_edges_mm
    )
    return Drawing(found.corners_mm, steps, bands, length_mm)


def _on(start: Point, end: Point, share: float) -> Point:
    return start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share


def _apart(start: Point, end: Point) -> float:
    return ((end[0] - start[0]) ** 2 + (end[1] - start[1]) ** 2) ** 0.5
