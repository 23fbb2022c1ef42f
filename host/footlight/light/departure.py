"""Long exposures: Schwarzschild's law, effect ∝ E·t**p, and its exponent from the printer's own strips.

p = 1 is reciprocity. It belongs to one paper and one range of times; it is measured, not looked up.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from footlight.errors import InputError
from footlight.light.setup import Departure
from footlight.light.tolerances import UNMEASURED_P

_LEAST_SPREAD_STOPS = 2.0


def exponent(departure: Departure | None) -> float:
    """The exponent p to reckon with, under the enlarger and in the camera: measured, or the one assumed."""
    return departure.p if departure else UNMEASURED_P


def corrected_s(metered_s: float, p: float, normal_s: float = 1.0) -> float:
    """The time [s] to give where `metered_s` [s] would do by reciprocity.

    normal_s: the time [s] at which no correction is needed. t_c = t_n·(t/t_n)**(1/p), Schwarzschild's law.
    Shorter times than `normal_s` are returned as they are.
    """
    if not 0 < metered_s < math.inf:
        raise InputError(f"time: {metered_s:g} s must be more than zero, for example '10 s'")
    if metered_s <= normal_s:
        return metered_s
    return normal_s * (metered_s / normal_s) ** (1 / Departure(p).p)


@dataclass(frozen=True)
class Match:
    """One strip: the light was dimmer by `dimmer_stops` [stops], and `seconds` [s] gave the same grey."""

    dimmer_stops: float
    seconds: float


@dataclass(frozen=True)
class Fit:
    """The exponent found, and how well the strips agree with it [stops, root mean square]."""

    departure: Departure
    scatter_stops: float
    shortest_s: float
    longest_s: float

    @property
    def summary(self) -> str:
        """`p = 0.93 ± 0.03, from 4.0 s to 64.0 s`."""
        found = self.departure
        return (
            f"p = {found.p:.3f} ± {found.p_uncertainty:.3f}, from {self.shortest_s:g} s to"
            f" {self.longest_s:g} s"
        )


def fit(matches: Sequence[Match], match_stops: float = 0.1) -> Fit:
    """The exponent p from strips matched to one grey in lights of different strength.

    Least squares of log2(time) on dimness: its slope is 1/p. match_stops: how well one strip is matched
    [stops, 1 sigma]; the scatter of the strips counts instead where it is larger. Valid only between the
    shortest and the longest time. Raises `InputError` for fewer than two strips, a spread below two stops,
    or a slope that no paper has.
    """
    _enough(matches)
    dim = [match.dimmer_stops for match in matches]
    times = [math.log2(match.seconds) for match in matches]
    slope, scatter, spread = _line(dim, times)
    p = 1 / slope if slope > 0 else 0.0
    if not 0.5 <= p <= 1.2:
        raise InputError(
            f"long exposures: these strips give p = {p:.2f}, outside 0.5 to 1.2; check that"
            " 'dimmer' means more"
            " stops for a weaker light, and that every strip was matched to the same grey"
        )
    slope_off = max(match_stops, scatter) / spread
    seconds = [match.seconds for match in matches]
    return Fit(Departure(p, slope_off * p**2), scatter, min(seconds), max(seconds))


def _enough(matches: Sequence[Match]) -> None:
    if len(matches) < 2:
        raise InputError("long exposures: at least two strips are needed, matched to the same grey")
    if any(not 0 < match.seconds < math.inf for match in matches):
        raise InputError("long exposures: every time must be more than zero, for example '8 s'")
    dims = [match.dimmer_stops for match in matches]
    if max(dims) - min(dims) < _LEAST_SPREAD_STOPS:
        raise InputError(
            f"long exposures: the strips differ by {max(dims) - min(dims):.2g} stops of light; at least 2 are"
            " needed, 4 are better (stop down, or use neutral density)"
        )


def _line(x: list[float], y: list[float]) -> tuple[float, float, float]:
    """(slope, scatter of y about the line, root of the sum of squares of x about its mean)."""
    n = len(x)
    mean_x, mean_y = sum(x) / n, sum(y) / n
    xx = sum((a - mean_x) ** 2 for a in x)
    slope = sum((a - mean_x) * (b - mean_y) for a, b in zip(x, y, strict=True)) / xx
    rest = sum((b - mean_y - slope * (a - mean_x)) ** 2 for a, b in zip(x, y, strict=True))
    return slope, math.sqrt(rest / (n - 2)) if n > 2 else 0.0, math.sqrt(xx)
