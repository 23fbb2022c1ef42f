"""Paper on the scanner's background: how many pieces, where, and how they lie."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from footlight.strips.errors import ScanError
from footlight.strips.find import pieces as parts
from footlight.strips.find.place import Place
from footlight.strips.scan.overview import Overview

_PAPER_D = 0.3
_SECOND = 0.4
_AWAY_MM, _RIM_MM = 2.4, 0.8
_REACH_MM = 0.2
_LINE_OVER_NOISE, _LEAST_LINE = 6.0, 0.0006  # tone a sample: the shadow of a rim on a sheet of its own tone
_FREE = 0.6  # share of a line that must lie on the sheet, not on another piece or the lid


@dataclass(frozen=True)
class Outlines:
    """What lies on a sheet. pieces: of paper, the largest first, as far as they stand out. sheet: None
    where the scan
    shows nothing about them."""

    pieces: tuple[Place, ...]
    sheet: parts.Sheet | None = None

    def strip(self, view: Overview, tablet: Place | None = None) -> Place:
        """The largest piece that is not the tablet, its whites found where they melt into the sheet."""
        rest = [place for place in self.pieces if tablet is None or not _lies_within(place, tablet)]
        place = (rest or self.pieces)[0]
        if self.sheet is None or not _is_light(view, self.sheet):
            return place
        return _completed(view, self.sheet, place, tablet)

    def another(self, strip: Place, tablet: Place | None) -> bool:
        """Does a second piece of a strip's size lie there?"""
        known = [place for place in (strip, tablet) if place is not None]
        rest = [place for place in self.pieces if not any(_lies_within(place, other) for other in known)]
        least = _SECOND * strip.length_mm * strip.width_mm
        return any(place.length_mm * place.width_mm > least for place in rest)

    def background(self, view: Overview, *taken: Place) -> NDArray | None:
        """The sheet without what lies on it, or melts into it; a little away from every rim."""
        return None if self.sheet is None else _outside(view, self.sheet.main, (*self.pieces, *taken))


def find(view: Overview, name: str, is_known: bool = False) -> Outlines:
    """The pieces of paper in a scan; the whole scan where nothing is seen about them.

    is_known: where the strip lies. Else raises ScanError where nothing of its size lies on the sheet.
    """
    sheet = parts.find(view)
    if not sheet.background.any():
        return Outlines((_whole(view),))
    if not sheet.pieces and not is_known:
        raise ScanError(
            f"{name}: no strip is seen against the background; lay it on a darker or lighter sheet"
        )
    return Outlines(tuple(_rectangle(sheet, mask, view) for mask in sheet.pieces), sheet)


def _is_light(view: Overview, sheet: parts.Sheet) -> bool:
    """Only on a sheet as light as paper may the whites of a strip melt into it."""
    return float(np.median(view.density[sheet.main])) < _PAPER_D


def _lies_within(place: Place, other: Place) -> bool:
    return bool(_within(other, place.at(place.length_mm / 2, place.width_mm / 2), 0.0))


def _within(place: Place, points_mm: NDArray, about_mm: float) -> NDArray:
    inside = (points_mm - place.origin_mm) @ np.stack([place.along, place.across], axis=1)
    size = np.array([place.length_mm, place.width_mm])
    return np.all((inside > -about_mm) & (inside < size + about_mm), axis=-1)


def _whole(view: Overview) -> Place:
    height, width = (n / view.px_per_mm for n in view.density.shape)
    place = Place(np.zeros(2), np.array([1.0, 0.0]), np.array([0.0, 1.0]), width, height)
    return place if width >= height else place.turned(1)


def _outside(view: Overview, main: NDArray, found: tuple[Place, ...]) -> NDArray:
    """The sheet without what melts into it, and a little away from every rim."""
    from scipy import ndimage

    free = np.asarray(ndimage.binary_erosion(main, iterations=8, border_value=1), bool)
    rows, columns = np.nonzero(free)
    points = np.stack([columns + 0.5, rows + 0.5], axis=-1) / view.px_per_mm
    for place in found:
        inside = _within(place, points, 1.5)
        free[rows[inside], columns[inside]] = False
    return free


def _rectangle(sheet: parts.Sheet, mask: NDArray, view: Overview) -> Place:
    """The rectangle about a piece along its own edges, its sides then moved onto the rim of the paper."""
    rows, columns = np.nonzero(mask)
    points = np.stack([columns + 0.5, rows + 0.5], axis=1) / view.px_per_mm
    angle = parts.direction(sheet, mask)
    along, across = _axes(angle)
    (u0, u1), (v0, v1) = (np.quantile(points @ axis, [0.002, 0.998]) for axis in (along, across))
    place = Place(u0 * along + v0 * across, along, across, float(u1 - u0), float(v1 - v0))
    place = place if place.length_mm >= place.width_mm else place.turned(1)
    for inward_mm in (1.5, 1.5, 1.5):
        for _ in range(4):
            place = _trimmed(view, place, inward_mm).turned(1)
        place = _levelled(view, place)
    for _ in range(4):
        place = _trimmed(view, place).turned(1)
    return place


def _completed(view: Overview, sheet: parts.Sheet, place: Place, tablet: Place | None) -> Place:
    """Each side moved to the farthest faint line outside it, if there is one: whites may have melted away."""
    taken = _taken(view, sheet, tablet)
    for _ in range(8):
        place = _extended(view, taken, place).turned(1)
    for _ in range(4):
        place = _trimmed(view, place).turned(1)
    return place if place.length_mm >= place.width_mm else place.turned(1)


def _taken(view: Overview, sheet: parts.Sheet, tablet: Place | None) -> NDArray:
    """Where the strip cannot go on: on the lid and on the tablet."""
    from scipy import ndimage

    free = np.zeros(sheet.main.shape, bool)
    free[sheet.box] = True
    lid = ~free | (sheet.background & ~sheet.main)
    lid = np.asarray(ndimage.binary_dilation(lid, iterations=round(_AWAY_MM * sheet.px_per_mm)), bool)
    if tablet is None:
        return lid
    rows, columns = np.indices(lid.shape)
    points = np.stack([columns + 0.5, rows + 0.5], axis=-1) / view.px_per_mm
    return lid | _within(tablet, points, _RIM_MM)


def _extended(view: Overview, taken: NDArray, place: Place) -> Place:
    reach = np.arange(0.8, 0.9 * max(place.length_mm, 40.0), _REACH_MM)
    at = np.linspace(0.03, 0.97, 161) * place.length_mm
    points = place.at(at[:, None], -reach[None, :])
    free = ~_at(taken, points, view)
    shares = free.mean(axis=0)
    end = int(np.argmax(shares < _FREE)) if (shares < _FREE).any() else len(reach)
    if end < 6:
        return place
    slopes = np.where(free, np.gradient(parts.tone(view.sample(points)), axis=1), np.nan)[:, :end]
    line = np.abs(np.nanmedian(slopes, axis=0))
    floor = max(_LEAST_LINE, _LINE_OVER_NOISE * float(np.median(line)))
    seen = np.flatnonzero(line > floor)
    if not len(seen):
        return place
    last = int(seen[-1])
    first = max(0, last - 4)
    shift = float(reach[first + int(line[first : last + 1].argmax())])
    return Place(place.at(0.0, -shift), place.along, place.across, place.length_mm, place.width_mm + shift)


def _at(mask: NDArray, points_mm: NDArray, view: Overview) -> NDArray:
    columns, rows = ((points_mm[..., axis] * view.px_per_mm).astype(int) for axis in (0, 1))
    off = (columns < 0) | (rows < 0) | (columns >= mask.shape[1]) | (rows >= mask.shape[0])
    return off | mask[np.where(off, 0, rows), np.where(off, 0, columns)]


def _levelled(view: Overview, place: Place) -> Place:
    """Turn the rectangle about its middle until its long sides lie along the rims of the paper."""
    slopes = [slope for side in (place, place.turned(2)) if (slope := _slope(view, side)) is not None]
    if not slopes:
        return place
    angle = float(np.mean(slopes))
    along = np.cos(angle) * place.along + np.sin(angle) * place.across
    across = np.cos(angle) * place.across - np.sin(angle) * place.along
    middle = place.at(place.length_mm / 2, place.width_mm / 2)
    origin = middle - along * place.length_mm / 2 - across * place.width_mm / 2
    return Place(origin, along, across, place.length_mm, place.width_mm)


def _slope(view: Overview, place: Place) -> float | None:
    """Of the rim against the first side [rad], stray points left out."""
    at, shifts = _rim(view, place)
    near = np.abs(shifts - np.median(shifts)) < 0.6 if len(shifts) else np.zeros(0, bool)
    if near.sum() < 8:
        return None
    slope, level = np.polyfit(at[near], shifts[near], 1)
    close = near & (np.abs(shifts - slope * at - level) < 0.2)
    return float(np.polyfit(at[close], shifts[close], 1)[0]) if close.sum() >= 8 else float(slope)


def _trimmed(view: Overview, place: Place, inward_mm: float = 1.5) -> Place:
    """Move the first side to the rim, in the median."""
    _, shifts = _rim(view, place, inward_mm)
    if len(shifts) < 5:
        return place
    shift = float(np.median(shifts))
    return Place(place.at(0.0, shift), place.along, place.across, place.length_mm, place.width_mm - shift)


def _rim(view: Overview, place: Place, inward_mm: float = 1.5) -> tuple[NDArray, NDArray]:
    """(along, how far inside the first side) [mm]: where the scan is half-way from background to paper."""
    reach = np.arange(-1.5, inward_mm, 0.05)
    at = np.linspace(0.08, 0.92, 41) * place.length_mm
    profiles = view.sample(place.at(at[:, None], reach[None, :]))
    outer, inner = profiles[:, :8].mean(axis=1), profiles[:, -8:].mean(axis=1)
    clear = np.abs(inner - outer) > 0.03
    share = (profiles - outer[:, None])[clear] / (inner - outer)[clear, None]
    return at[clear], reach[np.argmax(share > 0.5, axis=1)]


def _axes(angle: float) -> tuple[NDArray, NDArray]:
    return np.array([np.cos(angle), np.sin(angle)]), np.array([-np.sin(angle), np.cos(angle)])
