"""Plain places of a print, found: an even black along its rim, and the lightest even place within.

A rebate that no light reached in the camera is as black as the process gave that day; a plain highlight shows
its veil and its mottle.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from footlight.errors import field
from footlight.strips.errors import ScanError
from footlight.strips.find.place import Place
from footlight.strips.scan.overview import Overview

Span = tuple[float, float]  # mm

_SAMPLE_MM = 0.5
_RIM_MM = 1.0  # at the very edge the scanner blurs paper and lid
_REBATE_WIDE_MM, _REBATE_LONG_MM = 4.0, 14.0
_REBATE_EVEN_D, _REBATE_ALIKE_D, _LEAST_BLACK_D = 0.04, 0.08, 0.9
_REBATE_LEAST = 6  # places 2 mm apart: 24 mm of rim
_HIGHLIGHT_MM = (13.0, 10.0)  # the standard's field, or one of 49 tiles
_HIGHLIGHT_INSET_MM, _HIGHLIGHT_EVEN_D, _MOST_HIGHLIGHT_D = 3.0, 0.02, 0.45


@dataclass(frozen=True)
class Plain:
    """A plain rectangle of a print: its spans along and across it [mm], and its rough density [D]."""

    along_mm: Span
    across_mm: Span
    density_d: float


def rebate(view: Overview, paper: Place, name: str) -> Plain:
    """The darkest even place along the rim. Raises ScanError where none is even, or none is dark."""
    found = []
    for turned in (False, True):
        even = _even(view, paper, _sizes(turned), _RIM_MM, _REBATE_EVEN_D, rim=True)
        for end in {_side(place, turned) for place in even}:
            found += _in_line([place for place in even if _side(place, turned) == end])
    if not found:
        raise ScanError(
            f"{name}: no even rebate along the rim of the print; point at one: {field('rebate')} 'x,y,w,h'"
        )
    darkest = max(found, key=lambda place: place.density_d)
    if darkest.density_d < _LEAST_BLACK_D:
        raise ScanError(
            f"{name}: no black rebate: the darkest even place along the rim has {darkest.density_d:.2f} D;"
            f" point at unexposed paper: {field('rebate')} 'x,y,w,h'"
        )
    return darkest


def _side(place: Plain, turned: bool) -> float:
    return place.along_mm[0] if turned else place.across_mm[0]


def _in_line(places: list[Plain]) -> list[Plain]:
    """Those of a side that are as dark as its darkest, if they are many: a shadow that reaches the rim of the
    picture is short, a rebate is long."""
    darkest = max(place.density_d for place in places)
    alike = [place for place in places if darkest - place.density_d < _REBATE_ALIKE_D]
    return alike if len(alike) >= _REBATE_LEAST else []


def _sizes(turned: bool) -> tuple[float, float]:
    return (_REBATE_WIDE_MM, _REBATE_LONG_MM) if turned else (_REBATE_LONG_MM, _REBATE_WIDE_MM)


def highlight(view: Overview, paper: Place, name: str) -> Plain:
    """The lightest even place. Raises ScanError where nothing is even, or nothing even is light."""
    for side in _HIGHLIGHT_MM:
        found = _even(view, paper, (side, side), _HIGHLIGHT_INSET_MM, _HIGHLIGHT_EVEN_D, rim=False)
        if found:
            lightest = min(found, key=lambda place: place.density_d)
            if lightest.density_d <= _MOST_HIGHLIGHT_D:
                return lightest
    raise ScanError(
        f"{name}: no plain highlight of {_HIGHLIGHT_MM[-1]:g} mm or more is seen; point at one:"
        f" {field('highlight')} 'x,y,w,h', or scan a print that has one"
    )


def _even(
    view: Overview, paper: Place, size_mm: tuple[float, float], inset_mm: float, even_d: float, rim: bool
) -> list[Plain]:
    """Even rectangles of a size (along, across), a few millimetres apart; of the rim alone, or of all."""
    picture = _samples(view, paper)
    mean, spread = _moments(picture, tuple(max(1, round(side / _SAMPLE_MM)) for side in size_mm))
    found = []
    for row, across in _starts(paper.width_mm, size_mm[1], inset_mm, rim and size_mm[0] > size_mm[1]):
        for column, along in _starts(paper.length_mm, size_mm[0], inset_mm, rim and size_mm[1] > size_mm[0]):
            if spread[row, column] < even_d:
                spans = (along, along + size_mm[0]), (across, across + size_mm[1])
                found.append(Plain(*spans, float(mean[row, column])))
    return found


def _starts(length_mm: float, size_mm: float, inset_mm: float, ends: bool) -> list[tuple[int, float]]:
    """(index of the middle sample, start [mm]) of places along a side; ends: at both ends only."""
    last = length_mm - inset_mm - size_mm
    if last < inset_mm:
        return []
    starts = [inset_mm, last] if ends else np.arange(inset_mm, last + 1e-6, 2.0).tolist()
    return [(int((start + size_mm / 2) / _SAMPLE_MM), start) for start in starts]


def _samples(view: Overview, paper: Place) -> NDArray:
    along = np.arange(_SAMPLE_MM / 2, paper.length_mm, _SAMPLE_MM)
    across = np.arange(_SAMPLE_MM / 2, paper.width_mm, _SAMPLE_MM)
    return view.sample(paper.at(along[None, :], across[:, None]))


def _moments(picture: NDArray, size: tuple[int, ...]) -> tuple[NDArray, NDArray]:
    """Mean and standard deviation in a window about every sample; size: (along, across)."""
    from scipy.ndimage import uniform_filter

    window = (size[1], size[0])
    mean = uniform_filter(picture.astype(float), window, mode="nearest")  # pyright: ignore[reportArgumentType]
    square = uniform_filter(picture.astype(float) ** 2, window, mode="nearest")  # pyright: ignore[reportArgumentType]
    return mean, np.sqrt(np.maximum(0.0, square - mean**2))
