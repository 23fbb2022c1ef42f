"""Where one step ends and the next begins: from edges that are seen, with number and spacing as guide."""

import numpy as np
from numpy.typing import NDArray

from footlight.errors import field
from footlight.strips.errors import ScanError
from footlight.strips.find.place import Edge

_SIGMA_MM = 0.6
_LEAST_STEP_D = 0.02
_WIDEST = 2.2
_NEAR = 0.30  # of a step: how far an edge that is seen may lie from where spacing puts it


def seen(profiles: NDArray, px_per_mm: float, least_gap_mm: float) -> NDArray:
    """Edges [mm] in profiles (one a row, along the last axis), the clear ones, in order.

    A Gaussian derivative answers a step of height h with a peak of h/(σ√2π); the answers of the
    profiles are averaged, so that a blotch in one of them is no edge.
    """
    from scipy.ndimage import gaussian_filter1d
    from scipy.signal import find_peaks

    sigma = _SIGMA_MM * px_per_mm
    slopes = np.abs(gaussian_filter1d(profiles, sigma, axis=1, order=1, mode="nearest"))
    slope = slopes.mean(axis=0) * sigma * np.sqrt(2 * np.pi)
    floor = max(_LEAST_STEP_D, 4 * float(np.median(slope)))
    rim = int(2.2 * px_per_mm)
    slope[:rim] = slope[-rim:] = 0
    found, _ = find_peaks(slope, height=floor, distance=max(1, int(least_gap_mm * px_per_mm)))
    return np.array([_centre(slope, peak) + 0.5 for peak in found]) / px_per_mm


def _centre(slope: NDArray, peak: int) -> float:
    left, middle, right = slope[peak - 1 : peak + 2]
    bend = left - 2 * middle + right
    return peak + (0.5 * (left - right) / bend if bend < 0 else 0.0)


def fit(found_mm: NDArray, length_mm: float, count: int, what: str) -> tuple[tuple[Edge, ...], str]:
    """The boundaries of `count` parts of a length [mm], and a note where something is unusual.

    All inner edges seen: they are taken, however unequal. Some: equal spacing fills the gaps between them.
    Raises ScanError where the edges that are seen cannot belong to so many parts.
    """
    inner = count - 1
    if len(found_mm) > inner:
        found_mm = _best(found_mm, length_mm, count) if len(found_mm) <= inner + 2 else found_mm
    if len(found_mm) > inner:
        raise ScanError(
            f"{what}: {len(found_mm) + 1} or more are seen, {count} were given; say how many there are"
        )
    if len(found_mm) == inner:
        _refuse_gaps(found_mm, length_mm, count, what)
        return _edges(found_mm, np.ones(inner, bool), length_mm), ""
    spaced = length_mm * np.arange(1, count) / count
    if not len(found_mm):
        return _edges(spaced, np.zeros(inner, bool), length_mm), ""
    return _filled(found_mm, spaced, length_mm / count, length_mm, what, count)


def _refuse_gaps(found_mm: NDArray, length_mm: float, count: int, what: str) -> None:
    """One part far wider than the rest holds edges too faint to see: there are more than were given."""
    widths = np.diff(np.concatenate([[0.0], found_mm, [length_mm]]))
    if widths.max() > _WIDEST * np.median(widths):
        raise ScanError(
            f"{what}: one of {count} would be {widths.max():.0f} mm wide, others {np.median(widths):.0f} mm;"
            f" check the number, or give the edges by hand: {field('edges')}"
        )


def _best(found_mm: NDArray, length_mm: float, count: int) -> NDArray:
    """One or two edges too many (a scratch, a stain): keep those nearest to the spacing, if all fit well."""
    spaced = length_mm * np.arange(1, count) / count
    nearest = [int(np.abs(found_mm - at).argmin()) for at in spaced]
    away = np.abs(found_mm[nearest] - spaced)
    fits = len(set(nearest)) == count - 1 and away.max() < _NEAR * length_mm / count
    return found_mm[nearest] if fits else found_mm


def _filled(found_mm, spaced, pitch_mm: float, length_mm: float, what: str, count: int):
    index = np.array([int(np.abs(spaced - at).argmin()) for at in found_mm])
    away = np.abs(found_mm - spaced[index]) / pitch_mm
    if away.max() > _NEAR or len(set(index)) < len(index):
        raise ScanError(
            f"{what}: the edges seen do not fit {count} equal ones (off by {away.max():.0%} of one);"
            " check the number, or give the edges by hand"
        )
    # Unseen edges share the shift of the seen ones about them.
    shift = np.interp(np.arange(count - 1), index, found_mm - spaced[index])
    is_seen = np.isin(np.arange(count - 1), index)
    return _edges(spaced + shift, is_seen, length_mm), ""


def _edges(inner_mm: NDArray, is_seen: NDArray, length_mm: float) -> tuple[Edge, ...]:
    between = [Edge(float(at), bool(s)) for at, s in zip(inner_mm, is_seen, strict=True)]
    return (Edge(0.0, True), *between, Edge(float(length_mm), True))


def by_hand(at_mm: tuple[float, ...], length_mm: float, count: int, what: str) -> tuple[Edge, ...]:
    """Boundaries that the printer gives [mm from the zero end], inner ones only; raises ScanError."""
    if len(at_mm) != count - 1 or list(at_mm) != sorted(at_mm) or not 0 < at_mm[0] <= at_mm[-1] < length_mm:
        raise ScanError(
            f"{what}: give {count - 1} rising edges between 0 and {length_mm:.0f} mm, not {len(at_mm)}"
        )
    return _edges(np.array(at_mm), np.ones(len(at_mm), bool), length_mm)
