"""A curve that only falls, through readings that need not: pool adjacent violators, then monotone cubics.

Ayer and others 1955 (isotonic regression); Fritsch and Carlson 1980 with Butland's harmonic slopes (PCHIP).
Both written anew here, so that a base install needs no numpy; scipy is their witness in the tests.
"""

import math
from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass


def falling(values: Sequence[float], weights: Sequence[float]) -> list[float]:
    """The values nearest to `values` (weighted squares) that nowhere rise."""
    blocks: list[tuple[float, float, int]] = []
    for value, weight in zip(values, weights, strict=True):
        blocks.append((value, weight, 1))
        while len(blocks) > 1 and blocks[-2][0] < blocks[-1][0]:
            (left, left_weight, left_count), (right, right_weight, right_count) = blocks[-2:]
            total = left_weight + right_weight
            mean = (left * left_weight + right * right_weight) / total
            blocks[-2:] = [(mean, total, left_count + right_count)]
    return [value for value, _, count in blocks for _ in range(count)]


@dataclass(frozen=True)
class Cubics:
    """Monotone cubics through points; beyond the last of either end the slope dies away over `tail`.

    places: rising. values: falling or level. slopes: at the places.
    """

    places: tuple[float, ...]
    values: tuple[float, ...]
    slopes: tuple[float, ...]
    tail: float

    def at(self, place: float) -> float:
        """The value at a place."""
        if not self.places[0] <= place <= self.places[-1]:
            return self._past(place)
        index = self.span(place)
        width = self.places[index + 1] - self.places[index]
        part = (place - self.places[index]) / width
        start, end = self.values[index], self.values[index + 1]
        bend = part * part * (3 - 2 * part)
        return (
            start
            + (end - start) * bend
            + width * part * (1 - part) * ((1 - part) * self.slopes[index] - part * self.slopes[index + 1])
        )

    def span(self, place: float) -> int:
        """Between which two points a place lies, the number of the left one."""
        return min(max(bisect_right(self.places, place) - 1, 0), len(self.places) - 2)

    def _past(self, place: float) -> float:
        end = 0 if place < self.places[0] else -1
        past = place - self.places[end]
        way = self.tail * (1 - math.exp(-abs(past) / self.tail))
        return self.values[end] + self.slopes[end] * math.copysign(way, past)


def cubics(places: Sequence[float], values: Sequence[float], tail: float) -> Cubics:
    """The cubics through points in rising order of place, three or more."""
    widths = [right - left for left, right in zip(places, places[1:], strict=False)]
    rises = [(right - left) / width for left, right, width in zip(values, values[1:], widths, strict=False)]
    inner = [
        _middle_slope(rises[index], rises[index + 1], widths[index], widths[index + 1])
        for index in range(len(rises) - 1)
    ]
    first = _end_slope(rises[0], rises[1], widths[0], widths[1])
    last = _end_slope(rises[-1], rises[-2], widths[-1], widths[-2])
    return Cubics(tuple(places), tuple(values), (first, *inner, last), tail)


def _middle_slope(left: float, right: float, left_width: float, right_width: float) -> float:
    """The weighted harmonic mean of the rises on both sides; level at a turn."""
    if left * right <= 0:
        return 0.0
    near, far = 2 * right_width + left_width, right_width + 2 * left_width
    return (near + far) / (near / left + far / right)


def _end_slope(near: float, far: float, near_width: float, far_width: float) -> float:
    """Three points' slope at the end, held to the sign of the curve and three times its rise."""
    slope = ((2 * near_width + far_width) * near - near_width * far) / (near_width + far_width)
    if slope * near <= 0:
        return 0.0
    return 3 * near if near * far <= 0 and abs(slope) > 3 * abs(near) else slope
