"""A strip whose corners a person has shown: the rectangle that fits them best."""

from collections.abc import Sequence

import numpy as np

from footlight.errors import field
from footlight.strips.errors import ScanError
from footlight.strips.find.place import Place

# Four points by hand are never quite a rectangle; beyond this they are something else.
_MOST_APART = 0.15
_LEAST_SIDE_MM = 10.0


def place_of(corners_mm: Sequence[tuple[float, float]], name: str) -> Place:
    """The strip within four corners [mm from the scan's left top], given in order around it.

    Its longer side is taken to lie along the steps. Raises ScanError for four points that are no rectangle.
    """
    points = np.array(corners_mm, float)
    if points.shape != (4, 2):
        raise ScanError(f"{name}: {field('corners')}: a strip has four corners, each 'x, y' in mm")
    sides = np.roll(points, -1, axis=0) - points
    lengths = np.linalg.norm(sides, axis=1)
    opposite = np.abs(lengths[:2] - lengths[2:]) / np.maximum(lengths[:2], lengths[2:]).clip(1e-6)
    square = abs(float(sides[0] @ sides[1])) / max(float(lengths[0] * lengths[1]), 1e-6)
    if lengths.min() < _LEAST_SIDE_MM or opposite.max() > _MOST_APART or square > _MOST_APART:
        raise ScanError(
            f"{name}: {field('corners')}: these four are no rectangle of {_LEAST_SIDE_MM:g} mm or more;"
            " give them in order around the strip"
        )
    along = sides[0] - sides[2]
    along = along / np.linalg.norm(along)
    # Never mirrored, whichever way around they were shown.
    across = np.array([-along[1], along[0]])
    length, width = float(lengths[[0, 2]].mean()), float(lengths[[1, 3]].mean())
    origin = points.mean(axis=0) - along * length / 2 - across * width / 2
    place = Place(origin, along, across, length, width)
    return place if length >= width else place.turned(1)
