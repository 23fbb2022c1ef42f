"""Monotone cubic interpolation: never a wiggle between two rows of a table.

Method: F. N. Fritsch and J. Butland (1984), weighted harmonic means of neighbouring slopes (PCHIP).
"""

from bisect import bisect_right
from collections.abc import Sequence
from itertools import pairwise


class Curve:
    """The curve through a table: x and y in their own units, x rising."""

    def __init__(self, rows: Sequence[tuple[float, float]]) -> None:
        self._x = [x for x, _ in rows]
        self._y = [y for _, y in rows]
        if len(rows) < 3 or any(b <= a for a, b in pairwise(self._x)):
            raise ValueError("a curve needs three rows or more, x rising")
        self._steps = [b - a for a, b in pairwise(self._x)]
        self._slopes = [(b - a) / step for (a, b), step in zip(pairwise(self._y), self._steps, strict=True)]
        self._tangents = self._all_tangents()

    @property
    def least(self) -> float:
        """Where the table begins [unit of x]."""
        return self._x[0]

    @property
    def most(self) -> float:
        """Where the table ends [unit of x]."""
        return self._x[-1]

    def at(self, x: float) -> float:
        """The value [unit of y] at `x` [unit of x]. Raises ValueError outside the table."""
        if not self.least <= x <= self.most:
            raise ValueError(f"{x:g} is outside {self.least:g} to {self.most:g}")
        left = min(bisect_right(self._x, x), len(self._x) - 1) - 1
        step, s = self._steps[left], (x - self._x[left]) / self._steps[left]
        return (
            self._y[left] * (1 + 2 * s) * (1 - s) ** 2
            + self._tangents[left] * step * s * (1 - s) ** 2
            + self._y[left + 1] * s**2 * (3 - 2 * s)
            + self._tangents[left + 1] * step * s**2 * (s - 1)
        )

    def _all_tangents(self) -> list[float]:
        h, d = self._steps, self._slopes
        inner = [_inner(h[k - 1], h[k], d[k - 1], d[k]) for k in range(1, len(h))]
        return [_end(h[0], h[1], d[0], d[1]), *inner, _end(h[-1], h[-2], d[-1], d[-2])]


def _inner(h0: float, h1: float, d0: float, d1: float) -> float:
    """Zero at a turning point, so that no turn is overshot."""
    if d0 * d1 <= 0:
        return 0.0
    w0, w1 = 2 * h1 + h0, h1 + 2 * h0
    return (w0 + w1) / (w0 / d0 + w1 / d1)


def _end(h0: float, h1: float, d0: float, d1: float) -> float:
    """One-sided three-point slope, held back where it would leave the direction of the first step."""
    slope = ((2 * h0 + h1) * d0 - h0 * d1) / (h0 + h1)
    if slope * d0 <= 0:
        return 0.0
    return 3 * d0 if d0 * d1 <= 0 and abs(slope) > 3 * abs(d0) else slope
