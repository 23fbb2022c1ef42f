"""Paper on the scanner's background: how many pieces, where, and how they lie."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from footlight.strips.errors import ScanError
from footlight.strips.find.place import Place
from footlight.strips.scan.overview import Overview

_LEAST_SIDE_MM = 8.0
_LEAST_FILL = 0.90


@dataclass(frozen=True)
class Outlines:
    """Pieces of paper, the largest first; the background's mask, None where the scan shows none."""

    pieces: tuple[Place, ...]
    background: NDArray | None


def find(view: Overview, name: str) -> Outlines:
    """The pieces of paper in a scan; the whole scan where its rim is no even background.

    Raises ScanError where what lies there is no rectangle of paper.
    """
    from scipy import ndimage

    level = _background(view)
    if level is None:
        return Outlines((_whole(view),), None)
    differs = np.abs(view.density - level[0]) > level[1]
    solid = ndimage.binary_opening(ndimage.binary_closing(differs, iterations=4), iterations=2)
    solid = np.asarray(ndimage.binary_fill_holes(solid), bool)
    labels, count = ndimage.label(solid)  # type: ignore[misc]
    sizes = np.bincount(labels.ravel())[1:]
    least = (_LEAST_SIDE_MM * view.px_per_mm) ** 2
    large = [index + 1 for index in np.argsort(-sizes) if sizes[index] >= least]
    if not count or not large:
        raise ScanError(
            f"{name}: no strip is seen against the background; lay it on a darker or lighter sheet"
        )
    pieces = tuple(_rectangle(labels == label, view, name) for label in large[:4])
    return Outlines(pieces, np.logical_not(ndimage.binary_dilation(solid, iterations=8)))


def _background(view: Overview) -> tuple[float, float] | None:
    """(level [D], how far paper must differ [D]), or None where the rim of the scan is not one even tone."""
    rim = np.concatenate([view.density[:3].ravel(), view.density[-3:].ravel()])
    sides = np.concatenate([view.density[:, :3].ravel(), view.density[:, -3:].ravel()])
    every = np.concatenate([rim, sides])
    level = float(np.median(every))
    spread = 1.4826 * float(np.median(np.abs(every - level)))
    if np.mean(np.abs(every - level) < 0.08 + 3 * spread) < 0.9 or spread > 0.12:
        return None
    return level, max(0.025, 5 * spread)


def _whole(view: Overview) -> Place:
    height, width = (n / view.px_per_mm for n in view.density.shape)
    place = Place(np.zeros(2), np.array([1.0, 0.0]), np.array([0.0, 1.0]), width, height)
    return place if width >= height else place.turned(1)


def _rectangle(mask: NDArray, view: Overview, name: str) -> Place:
    """The smallest rectangle about a piece, its sides then fitted to the rim of the piece."""
    rows, columns = np.nonzero(mask & ~_inner(mask))
    points = np.stack([columns + 0.5, rows + 0.5], axis=1) / view.px_per_mm
    angle = _refined(points, _smallest(points))
    along, across = _axes(angle)
    u, v = points @ along, points @ across
    half = 0.5 / view.px_per_mm
    (u0, u1), (v0, v1) = (_ends(u, v, half), _ends(v, u, half))
    place = Place(u0 * along + v0 * across, along, across, u1 - u0, v1 - v0)
    fill = mask.sum() / view.px_per_mm**2 / max(place.length_mm * place.width_mm, 1e-6)
    if fill < _LEAST_FILL:
        raise ScanError(
            f"{name}: what lies there is no rectangle of paper ({fill:.0%} of one);"
            " scan one flat strip, apart from the rest"
        )
    place = place if place.length_mm >= place.width_mm else place.turned(1)
    for _ in range(2):
        place = _levelled(view, place)
        for _ in range(4):
            place = _trimmed(view, place).turned(1)
    return place


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


def _trimmed(view: Overview, place: Place) -> Place:
    """Move the first side to the rim, in the median."""
    _, shifts = _rim(view, place)
    if len(shifts) < 5:
        return place
    shift = float(np.median(shifts))
    return Place(place.at(0.0, shift), place.along, place.across, place.length_mm, place.width_mm - shift)


def _rim(view: Overview, place: Place) -> tuple[NDArray, NDArray]:
    """(along, how far inside the first side) [mm]: where the scan is half-way from background to paper."""
    reach = np.arange(-1.5, 1.5, 0.05)
    at = np.linspace(0.08, 0.92, 41) * place.length_mm
    profiles = view.sample(place.at(at[:, None], reach[None, :]))
    outer, inner = profiles[:, :8].mean(axis=1), profiles[:, -8:].mean(axis=1)
    clear = np.abs(inner - outer) > 0.03
    share = (profiles - outer[:, None])[clear] / (inner - outer)[clear, None]
    return at[clear], reach[np.argmax(share > 0.5, axis=1)]


def _inner(mask: NDArray) -> NDArray:
    from scipy.ndimage import binary_erosion

    return binary_erosion(mask)


def _axes(angle: float) -> tuple[NDArray, NDArray]:
    return np.array([np.cos(angle), np.sin(angle)]), np.array([-np.sin(angle), np.cos(angle)])


def _smallest(points: NDArray) -> float:
    """The angle [rad] of the smallest rectangle about points: one of its sides lies on their hull."""
    from scipy.spatial import ConvexHull

    hull = points[ConvexHull(points).vertices]
    sides = np.diff(np.vstack([hull, hull[:1]]), axis=0)
    angles = np.unique(np.round(np.arctan2(sides[:, 1], sides[:, 0]) % (np.pi / 2), 4))
    areas = [np.ptp(hull @ along) * np.ptp(hull @ across) for along, across in map(_axes, angles)]
    angle = float(angles[int(np.argmin(areas))])
    return angle - np.pi / 2 if angle > np.pi / 4 else angle


def _refined(points: NDArray, angle: float) -> float:
    """Turn by the mean slope of the two sides that the most points lie on."""
    along, across = _axes(angle)
    u, v = points @ along, points @ across
    if np.ptp(u) < np.ptp(v):
        u, v = v, -u
    slopes = []
    for side in (v.min(), v.max()):
        on = (np.abs(v - side) < 0.8) & (np.abs(u - np.median(u)) < 0.42 * np.ptp(u))
        if on.sum() > 10:
            slopes.append(np.polyfit(u[on], v[on], 1)[0])
    return angle + float(np.arctan(np.mean(slopes))) if slopes else angle


def _ends(u: NDArray, v: NDArray, half: float) -> tuple[float, float]:
    """Where a piece ends along u: the median of the rim points there, corners left out."""
    middle = np.abs(v - np.median(v)) < 0.4 * np.ptp(v)
    low = np.median(u[middle & (u < u.min() + 0.8)]) - half
    high = np.median(u[middle & (u > u.max() - 0.8)]) + half
    return float(low), float(high)
