"""What a light's dose is in doubt by, timed by seconds or counted by a sensor at the lamp house.

A filament's light goes with a power of the mains; counting takes that out, and leaves what the sensor sees
otherwise than paper does. The exponent of sensor against paper is found from two levels of the same lamp.
"""

import math
from dataclasses import dataclass

from footlight.errors import InputError, field
from footlight.light.lamp import PAPER_EXPONENT
from footlight.light.uncertainty import Budget, Term, power_stops

# EN 50160: 95 % of a week's ten-minute means of the mains lie within 10 % of its nominal voltage (from
# memory).
# As one standard uncertainty, half of that; a house's own mains is mostly steadier.
_MAINS_SHARE = 0.05
_MAINS = "± 5 % as one in three, within EN 50160's ± 10 %"
_AGEING_STOPS = 0.1  # a bulb over its life, until it is changed (common practice, no source)
_COUNT_STOPS = 0.006  # looks of 10 to 42 ms, a filter of 24 ms, 12 bits (simulated: docs/light.md)
_LEVEL_STOPS = 0.01  # the learnt level, of a lamp that is steady (the limit of learning it)
_UNMATCHED_POWER = 0.1  # how far a blue sensor's exponent may be off paper's
_STRIP_STOPS = 0.03  # how well two strips are matched (from the strip reader's own figures)
_LEAST_STOPS = 0.15  # less between the levels says nothing of the exponent
_MOST_POWER = 2.0


@dataclass(frozen=True)
class SensorPower:
    """Stops of paper for a stop of the sensor, with its standard uncertainty."""

    power: float
    uncertainty: float


def by_seconds() -> Budget:
    """Of a light that is timed."""
    mains = Term("the mains", _MAINS, power_stops(1, _MAINS_SHARE, PAPER_EXPONENT))
    return Budget((mains, Term("the lamp's age", "cold, old", _AGEING_STOPS)))


def by_count(power: SensorPower | None = None) -> Budget:
    """Of a light that is counted. power: as it was measured; None: not yet."""
    doubt = power.uncertainty if power else _UNMATCHED_POWER
    detail = f"± {doubt:.2f} stop a stop" + ("" if power else ", not measured")
    mains_stops = power_stops(1, _MAINS_SHARE, PAPER_EXPONENT)
    return Budget(
        (
            Term("the sensor's colour", detail, doubt * mains_stops),
            Term("the learnt level", "± 0.01 stop", _LEVEL_STOPS),
            Term("counting", "looks, filter, steps", _COUNT_STOPS),
        )
    )


def sensor_power(high_s: float, low_s: float, high_stops: float, low_stops: float, now: float) -> SensorPower:
    """From two counted doses [s] that gave the same tone, at two levels [stops] of the lamp.

    now: the power that they were counted with. The same tone means: time x level ** power is the same, and a
    counted dose is time x level ** now. Raises InputError for levels that lie too near to each other.
    """
    apart = high_stops - low_stops
    if abs(apart) < _LEAST_STOPS:
        raise InputError(
            f"{field('levels')}: {abs(apart):.2f} stop apart; at least {_LEAST_STOPS} stop is needed, such as"
            " a strip at full light and one through a dimmed mains"
        )
    power = now + math.log2(low_s / high_s) / apart
    if not 1 / _MOST_POWER <= power <= _MOST_POWER:
        raise InputError(
            f"the doses give {power:.2f} stop of paper a stop of the sensor; possible is 0.5 to 2: look"
            " whether both strips show the same tone"
        )
    return SensorPower(power, _STRIP_STOPS * math.sqrt(2) / abs(apart))
