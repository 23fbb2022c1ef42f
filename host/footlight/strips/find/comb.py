"""The patches of a tablet, counted by their edges: the comb of equal teeth that holds one even patch in each.

A tablet may have a rim of any tone, seams between its patches, and a patch that has the tone of the sheet;
its
patches may lie in any order. So the comb is not cut from the tablet's length: its pitch and its start are
tried, and
those are taken at which every tooth is even and the tones follow the given densities along one smooth curve.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from footlight.errors import field
from footlight.strips.errors import ScanError
from footlight.strips.find import pieces
from footlight.strips.find.place import Place
from footlight.strips.scan.overview import Overview

_SAMPLE_MM = 0.1
_TOOTH, _WIDER = 0.6, 1.45  # share of the pitch that is looked at, about its middle
_LEAST_PITCH_MM = 3.0
_LEAST_PATCHES, _LEAST_APART_D = 5, 0.01
_NOISE = 0.001  # tone a sample
_PITCHES = 150
_MOST_INSIDE = 0.12  # share of the edges that may lie within teeth and not between them
_RIMS_ALIKE = (
    0.05  # tone: a rim as wide as a patch is alike at both ends, else it is a patch that was not given
)
_MOST_OFF_D = 0.06  # a tooth from the smooth curve; the rest of the doubt is the tablet's own
_MOST_LOPSIDED = (
    0.35  # pitches: more tablet beyond one end than beyond the other is a patch that was not given
)
_IN_LINE_MM = 1.5
_TRIED = 400


@dataclass(frozen=True)
class Comb:
    """start_mm, pitch_mm: along a piece. reversed: the densities run from its far end. doubt: how badly it
    fits, least
    where patches follow a smooth curve, edges lie between teeth and the comb in the middle of the piece."""

    piece: Place
    start_mm: float
    pitch_mm: float
    reversed: bool
    doubt: float

    def patch(self, number: int) -> tuple[tuple[float, float], tuple[float, float]]:
        """The middle of a patch, counted from 0 [mm along and across the piece]."""
        middle = self.start_mm + (number + 0.5) * self.pitch_mm
        half = 0.25 * self.pitch_mm
        width = self.piece.width_mm
        high = min(0.25 * width, 2 * half)
        return (middle - half, middle + half), (width / 2 - high, width / 2 + high)


def find(view: Overview, found: tuple[Place, ...], densities_d: tuple[float, ...], name: str) -> Comb:
    """The piece that is the tablet, with its patches. Raises ScanError, one line, where none fits."""
    _check(densities_d, f"{name}, tablet")
    combs = [comb for place in _candidates(found) for comb in _of_piece(view, place, np.array(densities_d))]
    if not combs:
        raise ScanError(
            f"{name}, tablet: no {len(densities_d)} patches with these densities are seen; give one"
            f" for every patch"
            f" in the order in which they lie, lay the tablet 5 mm from the strip, or point at its patches:"
            f" {field('patches')} '0.06 at 12,80 mm'"
        )
    return min(combs, key=lambda comb: comb.doubt)


def _check(densities_d: tuple[float, ...], what: str) -> None:
    count = len(densities_d)
    if count < _LEAST_PATCHES:
        raise ScanError(
            f"{what}: {count} densit{'y' if count == 1 else 'ies'}"
            f" calibrate{'s' if count == 1 else ''} nothing; give"
            f" every patch of it, five at least, or point at patches, {field('patches')}: such as"
            f" {field('tablet')} '0.06, 0.5, 1.0, 1.5, 2.0'"
        )
    if np.diff(np.sort(densities_d)).min() < _LEAST_APART_D:
        raise ScanError(f"{what}: patches need densities {_LEAST_APART_D:g} D apart at least; correct them")


def _candidates(found: tuple[Place, ...]) -> list[Place]:
    """Every piece, and what pieces in one line make together: a patch of the sheet's tone cuts a tablet in
    two."""
    joined = []
    for place in found:
        for turned in (place, place.turned(1)):
            line = [other for other in found if other is not place and _in_line(turned, other)]
            if line:
                joined.append(_spanning(turned, line))
    return [*found, *joined]


def _corners(place: Place, other: Place) -> NDArray:
    """Corners of another piece along and across this one [mm]."""
    points = other.at(
        np.array([0, other.length_mm, other.length_mm, 0]), np.array([0, 0, other.width_mm, other.width_mm])
    )
    return (points - place.origin_mm) @ np.stack([place.along, place.across], axis=1)


def _in_line(place: Place, other: Place) -> bool:
    across = _corners(place, other)[:, 1]
    return bool(across.min() > -_IN_LINE_MM and across.max() < place.width_mm + _IN_LINE_MM
                and np.ptp(across) > 0.7 * place.width_mm)  # fmt: skip


def _spanning(place: Place, line: list[Place]) -> Place:
    along = np.concatenate([[0.0, place.length_mm], *(_corners(place, other)[:, 0] for other in line)])
    return Place(
        place.at(float(along.min()), 0.0), place.along, place.across, float(np.ptp(along)), place.width_mm
    )


def _of_piece(view: Overview, place: Place, known_d: NDArray) -> list[Comb]:
    return [comb for turned in (place, place.turned(1)) if (comb := _best(view, turned, known_d)) is not None]


def _best(view: Overview, place: Place, known_d: NDArray) -> Comb | None:
    count = len(known_d)
    profile, first_mm = _profile(view, place)
    starts, pitches = _combs(place.length_mm, count)
    if not len(starts):
        return None
    means, inside, near = _teeth(profile, first_mm, starts, pitches, count)
    lopsided = np.abs(place.length_mm - 2 * starts - count * pitches) / pitches
    combs = []
    for at in np.argsort(inside + 0.1 * near)[:_TRIED]:
        if inside[at] > _MOST_INSIDE or not _rims_alike(
            profile, first_mm, place, float(starts[at]), float(pitches[at]), count
        ):
            continue
        tones = -2.4 * np.log10(np.maximum(means[at], 1e-3))
        for order in (False, True):
            off_d = _off(tones, known_d[::-1] if order else known_d)
            if off_d < _MOST_OFF_D:
                doubt = off_d + 0.5 * float(inside[at]) + 0.02 * float(near[at]) + 0.01 * float(lopsided[at])
                combs.append(Comb(place, float(starts[at]), float(pitches[at]), order, doubt))
    return min(combs, key=lambda comb: comb.doubt) if combs else None


def _rims_alike(
    profile: NDArray, first_mm: float, place: Place, start: float, pitch: float, count: int
) -> bool:
    """What lies beyond both ends of a comb, half a patch or more of it, is the tablet's rim: of one tone."""
    left, right = start, place.length_mm - start - count * pitch
    if min(left, right) < 0.5 * pitch:
        return True
    at = [int((x - first_mm) / _SAMPLE_MM) for x in (start / 2, place.length_mm - right / 2)]
    return abs(float(profile[at[0]] - profile[at[1]])) < _RIMS_ALIKE


def _combs(length_mm: float, count: int) -> tuple[NDArray, NDArray]:
    """(starts, pitches) [mm] of combs that lie in the middle of a piece, or miss a patch that melted away."""
    most, least = length_mm / max(1.0, count - 1.3), max(_LEAST_PITCH_MM, 0.62 * length_mm / count)
    if most <= least:
        return np.zeros(0), np.zeros(0)
    pitches = np.geomspace(least, most, _PITCHES)
    starts = np.arange(-1.3, 0.31 * count + 0.5, 0.05)
    start, pitch = (part.ravel() for part in np.meshgrid(starts, pitches))
    start = start * pitch
    left, right = start, length_mm - start - count * pitch
    beyond = np.maximum(left, right) - np.maximum(np.minimum(left, right), 0)
    inside = (beyond < _MOST_LOPSIDED * pitch) & (np.minimum(left, right) > -1.3 * pitch)
    return start[inside], pitch[inside]


def _profile(view: Overview, place: Place) -> tuple[NDArray, float]:
    """Tone along the middle of a piece, and beyond its ends; where it begins [mm]."""
    first_mm = -0.4 * place.length_mm
    along = np.arange(first_mm, 1.4 * place.length_mm, _SAMPLE_MM)
    across = place.width_mm * np.linspace(0.4, 0.6, 9)
    return np.median(pieces.tone(view.sample(place.at(along[None, :], across[:, None]))), axis=0), first_mm


def _teeth(profile: NDArray, first_mm: float, starts: NDArray, pitches: NDArray, count: int):
    """(mean tone of every tooth, share of the edges within teeth, and within wider ones) of every comb."""
    edges = np.maximum(np.abs(np.gradient(profile)) - _NOISE, 0)
    tones, steep = (np.concatenate([[0.0], np.cumsum(values)]) for values in (profile, edges))

    def sums(running: NDArray, low: NDArray, high: NDArray):
        first, last = (
            np.clip(((mm - first_mm) / _SAMPLE_MM).astype(int), 0, len(profile)) for mm in (low, high)
        )
        return running[last] - running[first], np.maximum(last - first, 1)

    middles = starts[:, None] + (np.arange(count) + 0.5) * pitches[:, None]
    half = 0.5 * _TOOTH * pitches[:, None]
    total, size = sums(tones, middles - half, middles + half)
    within, near = (
        sums(steep, middles - wide * half, middles + wide * half)[0].sum(axis=1) for wide in (1.0, _WIDER)
    )
    about, _ = sums(steep, starts + 0.1 * pitches, starts + (count - 0.1) * pitches)
    every = np.maximum(about, 1e-9)
    return total / size, within / every, near / every


def _off(tones_d: NDArray, known_d: NDArray) -> float:
    """How far the worst patch lies from a smooth rising curve through the rest [D]."""
    centred = tones_d - tones_d.mean()
    terms = np.polyfit(centred, known_d, 3 if len(known_d) > 7 else 2)
    order = np.argsort(known_d)
    rises = np.diff(tones_d[order]) > 0
    return float(np.abs(np.polyval(terms, centred) - known_d).max()) if rises.all() else np.inf
