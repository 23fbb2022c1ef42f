"""Where a strip lies in its scan, and which of its patches of paper is which."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray


@dataclass(frozen=True)
class Place:
    """A rectangle of paper in a scan.

    origin_mm: its corner at the zero end, first band [mm from the scan's left top: x, y]. along, across: unit
    vectors in the scan. length_mm, width_mm: its size along the steps and across them [mm].
    """

    origin_mm: NDArray
    along: NDArray
    across: NDArray
    length_mm: float
    width_mm: float

    @property
    def skew_deg(self) -> float:
        """Between the strip and the nearest edge of the scan [°]."""
        angle = float(np.degrees(np.arctan2(self.along[1], self.along[0])))
        return (angle + 45) % 90 - 45

    def at(self, along_mm: NDArray | float, across_mm: NDArray | float) -> NDArray:
        """Points of the strip [mm] in the scan [mm]; the last axis is x, y."""
        along, across = np.broadcast_arrays(np.asarray(along_mm, float), np.asarray(across_mm, float))
        return self.origin_mm + along[..., None] * self.along + across[..., None] * self.across

    def turned(self, times: int) -> "Place":
        """The same paper seen from another corner: `times` quarter turns."""
        place = self
        for _ in range(times % 4):
            corner = place.at(place.length_mm, 0.0)
            place = Place(corner, place.across, -place.along, place.width_mm, place.length_mm)
        return place

    def flipped(self) -> "Place":
        """The bands counted from the other side."""
        return Place(self.at(0.0, self.width_mm), self.along, -self.across, self.length_mm, self.width_mm)


@dataclass(frozen=True)
class Edge:
    """A boundary between two steps or bands [mm from the zero end or first band]; seen, or by spacing."""

    at_mm: float
    seen: bool


@dataclass(frozen=True)
class Grid:
    """A strip with its boundaries: of the steps along it, of the bands across it, outer ends included."""

    place: Place
    steps: tuple[Edge, ...]
    bands: tuple[Edge, ...]
    names: tuple[str, ...]
    notes: tuple[str, ...] = ()

    def cells(self):
        """(band name, step number, along from–to [mm], across from–to [mm]) of every cell."""
        for row, name in enumerate(self.names):
            across = (self.bands[row].at_mm, self.bands[row + 1].at_mm)
            for step in range(len(self.steps) - 1):
                yield name, step, (self.steps[step].at_mm, self.steps[step + 1].at_mm), across
