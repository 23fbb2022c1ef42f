"""What the finished Gerber and drill files join, by their geometry alone: no net name, no netlist is read."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

from gerbonara import ExcellonFile, GerberFile
from gerbonara.apertures import CircleAperture, RectangleAperture
from gerbonara.graphic_objects import Flash, Line
from shapely import STRtree
from shapely.geometry import LineString, Point, box
from shapely.geometry.base import BaseGeometry

LAYERS = ("F_Cu", "B_Cu")


class Copper:
    """The copper of both layers, the plated holes, and which piece is joined to which."""

    def __init__(self, folder: Path) -> None:
        self.pieces: list[tuple[int, BaseGeometry]] = []
        for number, layer in enumerate(LAYERS):
            (source,) = folder.glob(f"*-{layer}.gbr")
            self.pieces += [(number, shape) for shape in _shapes(GerberFile.open(source))]
        (source,) = folder.glob("*-PTH.drl")
        self.holes = [
            (round(hole.x, 3), round(hole.y, 3), _width_mm(hole))
            for hole in ExcellonFile.open(source).objects
            if isinstance(hole, Flash)
        ]
        self._stands = list(range(len(self.pieces)))
        self._trees = [self._tree(number) for number in range(len(LAYERS))]
        self._join_layers()
        self._join_holes()

    def _tree(self, layer: int) -> tuple[STRtree, list[int]]:
        mine = [k for k, (number, _) in enumerate(self.pieces) if number == layer]
        return STRtree([self.pieces[k][1] for k in mine]), mine

    def root(self, piece: int) -> int:
        """The piece that stands for all that this one is joined to."""
        while self._stands[piece] != piece:
            piece = self._stands[piece]
        return piece

    def _join(self, one: int, other: int) -> None:
        self._stands[self.root(one)] = self.root(other)

    def _join_layers(self) -> None:
        for tree, mine in self._trees:
            for k in mine:
                for found in tree.query(self.pieces[k][1], predicate="intersects"):
                    self._join(k, mine[int(found)])

    def _join_holes(self) -> None:
        for x, y, _ in self.holes:
            met = list(self._at(x, y))
            for piece in met[1:]:
                self._join(met[0], piece)

    def _at(self, x: float, y: float) -> Iterator[int]:
        for tree, mine in self._trees:
            for found in tree.query(Point(x, y), predicate="intersects"):
                yield mine[int(found)]

    def joined(self) -> dict[tuple[float, float], int]:
        """Return for each plated hole which piece of copper it is part of."""
        return {(x, y): self.root(next(self._at(x, y))) for x, y, _ in self.holes}

    def too_near(self, least_mm: float) -> list[tuple[float, float]]:
        """Return places where copper that is not joined comes nearer than that."""
        places = []
        for tree, mine in self._trees:
            for k in mine:
                shape = self.pieces[k][1]
                for found in tree.query(shape.buffer(least_mm - 1e-3), predicate="intersects"):
                    other = mine[int(found)]
                    if other > k and self.root(other) != self.root(k):
                        places.append((round(shape.centroid.x, 2), round(shape.centroid.y, 2)))
        return places


def _width_mm(mark: Any) -> float:
    """Of a round tool or aperture."""
    return float(mark.aperture.diameter)


def _shapes(layer: GerberFile) -> Iterator[BaseGeometry]:
    for mark in layer.objects:
        if isinstance(mark, Line):
            yield LineString([(mark.x1, mark.y1), (mark.x2, mark.y2)]).buffer(_width_mm(mark) / 2)
        elif isinstance(mark, Flash) and isinstance(mark.aperture, CircleAperture):
            yield Point(mark.x, mark.y).buffer(mark.aperture.diameter / 2)
        elif isinstance(mark, Flash) and isinstance(mark.aperture, RectangleAperture):
            w, h = mark.aperture.w / 2, mark.aperture.h / 2
            yield box(mark.x - w, mark.y - h, mark.x + w, mark.y + h)
        else:
            raise ValueError(f"{mark} is a shape that this reader does not know")
