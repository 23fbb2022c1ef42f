"""The other way round: which stop, which height gives this time, and what a given time would do.

All start from an exposure found good: `seconds` [s] at an `Arrangement`.
"""

import math
from dataclasses import dataclass, replace

from footlight.errors import InputError
from footlight.light.departure import exponent
from footlight.light.exposure import Exposure, convert
from footlight.light.setup import Arrangement, Build, Departure
from footlight.light.tolerances import Tolerances
from footlight.light.uncertainty import Budget
from footlight.quantities import FStop, format_seconds
from footlight.quantities.fstop import LEAST_F_NUMBER, MOST_F_NUMBER

_STANDARD = Tolerances()
_COMMON_BUILD = Build()
_LEAST_HEIGHT_MM, _MOST_HEIGHT_MM = 20.0, 10_000.0


@dataclass(frozen=True)
class Change:
    """What both ends of a conversion share: more light wanted, a bridge, measured p,"
    " tolerances, build of the lamp."""

    offset_stops: float = 0.0
    bridge_stops: float | None = None
    departure: Departure | None = None
    tolerances: Tolerances = _STANDARD
    build: Build = _COMMON_BUILD


def choices(
    seconds: float, at: Arrangement, to: Arrangement, change: Change | None = None, *, parts: int = 3
) -> list[Exposure]:
    """The answers to a change of arrangement, the surest first.

    First the same seconds with another stop, engraved in whole stops, halves or thirds (`parts` 1, 2, 3)
    with the small rest put into the time; then the stop as it is at `to`, with another time. Only the
    second where there is no stop to change, or where the stop was changed on purpose.
    """
    change = change or Change()
    plain = _converted(seconds, at, to, change)
    if to.stop is None or to.stop != at.stop:
        return [plain]
    try:
        kept = stop_for_time(seconds, at, to, seconds, change, parts=parts)
    except InputError:
        return [plain]
    return [plain] if kept.to.stop == to.stop else [kept, plain]


def stop_for_time(
    seconds: float,
    at: Arrangement,
    to: Arrangement,
    wanted_s: float,
    change: Change | None = None,
    *,
    parts: int = 3,
) -> Exposure:
    """The engraved stop at `to` whose time is nearest `wanted_s` [s], and the time that it needs.

    Raises `InputError` under a bare lamp, and where no lens has that stop.
    """
    if to.stop is None:
        raise InputError("stop: a bare lamp has none; ask for the height instead")
    wanted_stops = _dimming_for(seconds, wanted_s, change or Change())
    there = _converted(seconds, at, to, change or Change())
    exact = to.stop.exact_value * 2 ** ((wanted_stops - there.illuminance_stops) / 2)
    if not LEAST_F_NUMBER <= exact <= MOST_F_NUMBER:
        raise InputError(f"{format_seconds(wanted_s)} would need f/{exact:.3g}; allowed is f/0.5 to f/1024")
    return _converted(seconds, at, replace(to, stop=FStop.nearest(exact, parts=parts)), change or Change())


def height_for_time(
    seconds: float, at: Arrangement, to: Arrangement, wanted_s: float, change: Change | None = None
) -> Exposure:
    """The height at which the stop, lens and filter of `to` need just `wanted_s` [s].

    Raises `InputError` where that is nearer than 20 mm or further than 10 m.
    """
    change = change or Change()
    more_stops = (
        _dimming_for(seconds, wanted_s, change) - _converted(seconds, at, to, change).illuminance_stops
    )
    r_mm = to.source_mm / 2 if to.lens is None else 0.0
    square_mm2 = (to.height_mm**2 + r_mm**2) * 2**more_stops - r_mm**2
    height_mm = math.sqrt(max(square_mm2, 0.0))
    if not _LEAST_HEIGHT_MM <= height_mm <= _MOST_HEIGHT_MM:
        raise InputError(
            f"{format_seconds(wanted_s)} would need a height of {height_mm:.0f} mm; allowed is 20"
            " mm to 10000 mm:"
            " change the stop instead"
        )
    return _converted(seconds, at, replace(to, height_mm=height_mm), change)


@dataclass(frozen=True)
class Outcome:
    """What a given time does, against the exposure found good."""

    given_s: float
    needed: Exposure

    @property
    def stops(self) -> float:
        """More (positive) or less light than the exposure found good [stops]."""
        return math.log2(self.given_s / self.needed.seconds)

    @property
    def budget(self) -> Budget:
        """The same doubts as those of the time needed."""
        return self.needed.budget

    @property
    def summary(self) -> str:
        """`8.0 s at 800 mm f/11 is -0.32 stop against the exposure found good, ± 0.08 stop`."""
        doubt = f", {self.budget}" if str(self.budget) else ""
        return (
            f"{format_seconds(self.given_s)} at {self.needed.to} is {self.stops:+.2f} stop against the"
            f" exposure found good{doubt}"
        )


def outcome(
    seconds: float, at: Arrangement, to: Arrangement, given_s: float, change: Change | None = None
) -> Outcome:
    """What `given_s` [s] at `to` does, against `seconds` [s] at `at`."""
    if not 0 < given_s < math.inf:
        raise InputError(f"time: {given_s:g} s must be more than zero, for example '8 s'")
    return Outcome(given_s, _converted(seconds, at, to, change or Change()))


def _converted(seconds: float, at: Arrangement, to: Arrangement, change: Change) -> Exposure:
    return convert(
        seconds,
        at,
        to,
        offset_stops=change.offset_stops,
        bridge_stops=change.bridge_stops,
        departure=change.departure,
        tolerances=change.tolerances,
        build=change.build,
    )


def _dimming_for(seconds: float, wanted_s: float, change: Change) -> float:
    """How much dimmer the light must be [stops] for `seconds` [s] to become `wanted_s` [s]."""
    if not 0 < wanted_s < math.inf:
        raise InputError(f"time wanted: {wanted_s:g} s must be more than zero, for example '8 s'")
    return exponent(change.departure) * (math.log2(wanted_s / seconds) - change.offset_stops)
