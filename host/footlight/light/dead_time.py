"""Dead time: the part of each lamp-on time that gives no light (relay, filament).

Test: one long exposure of T beside n short ones of t each; the t that matches in grey gives
δ = (n·t - T)/(n - 1), from T - δ = n·(t - δ). Procedure: common practice, no source.
"""

import math
from dataclasses import dataclass

from footlight.errors import InputError


@dataclass(frozen=True)
class DeadTime:
    """Dead time and its standard uncertainty [ms]."""

    dead_ms: float
    uncertainty_ms: float

    @property
    def summary(self) -> str:
        """`dead time 56 ms ± 25 ms`."""
        return f"dead time {self.dead_ms:.0f} ms ± {self.uncertainty_ms:.0f} ms"


def from_match(long_s: float, count: int, short_s: float, match_stops: float = 0.03) -> DeadTime:
    """Dead time from one exposure of `long_s` [s] matched by `count` exposures of `short_s` [s] each.

    match_stops: how well the two greys are matched [stops, 1 sigma]. Raises `InputError` where the match
    gives a dead time below zero beyond its doubt, or longer than the short exposure.
    """
    if count < 2:
        raise InputError(f"dead time: {count} short exposures; at least 2 are needed, 10 are good")
    if not 0 < long_s < math.inf or not 0 < short_s < math.inf:
        raise InputError(f"dead time: {long_s:g} s and {short_s:g} s must be more than zero")
    dead_s = (count * short_s - long_s) / (count - 1)
    off_s = match_stops * math.log(2) * (long_s - dead_s) / (count - 1)
    if dead_s < -2 * off_s or dead_s >= short_s:
        raise InputError(
            f"dead time: {count} x {short_s:g} s against {long_s:g} s gives {dead_s * 1000:.0f}"
            " ms, which cannot be;"
            f" the short ones together should be a little longer than {long_s:g} s"
        )
    return DeadTime(max(dead_s, 0.0) * 1000, off_s * 1000)


def given_s(lamp_on_s: float, dead_ms: float, count: int = 1) -> float:
    """Light given [s] by `count` lamp-on times of `lamp_on_s` [s] each."""
    return count * max(0.0, lamp_on_s - dead_ms / 1000)


def lamp_on_s(light_s: float, dead_ms: float) -> float:
    """The lamp-on time [s] that gives `light_s` [s] of light at one go."""
    return light_s + dead_ms / 1000


def split_loss_stops(total_s: float, count: int, dead_ms: float) -> float:
    """What splitting `total_s` [s] into `count` equal exposures gives if dead time is not counted in [stops].

    Negative: less light than in one go.
    """
    parts_s, whole_s = given_s(total_s / count, dead_ms, count), given_s(total_s, dead_ms)
    if parts_s <= 0:
        raise InputError(
            f"dead time: {count} exposures in {total_s:g} s are shorter than the dead time of {dead_ms:g} ms"
        )
    return math.log2(parts_s / whole_s)
