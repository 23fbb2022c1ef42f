"""The lamp itself: what the mains does to it, and how it warms up.

A filament's light goes as V**n. For the eye n is about 3.4 (IES Lighting Handbook, from memory). Paper
sees blue: in Wien's law the exponent goes as 1/wavelength, so 3.4 at the eye's 575 nm effective wavelength
becomes 3.4 · 575/450 ≈ 4.3 at 450 nm.
"""

import bisect
import math
from collections.abc import Sequence
from dataclasses import dataclass

from footlight.errors import InputError

LUMINOUS_EXPONENT = 3.4
_EYE_NM = 575.0  # effective wavelength of the eye under a filament lamp, by Wien's law
PAPER_EXPONENT = 4.3


def exponent_at(wavelength_nm: float) -> float:
    """The exponent n of a filament lamp as seen at one wavelength [nm], 350 to 700 nm, by Wien's law."""
    if not 350 <= wavelength_nm <= 700:
        raise InputError(
            f"wavelength: {wavelength_nm:g} nm; allowed is 350 to 700 nm, paper sees about 450 nm"
        )
    return LUMINOUS_EXPONENT * _EYE_NM / wavelength_nm


def output_ratio(volts: float, reference_volts: float, exponent: float = PAPER_EXPONENT) -> float:
    """Light at `volts` as a fraction of that at `reference_volts` [V], as seen with `exponent`.

    Valid within about ± 15 % of the reference; raises `InputError` outside that.
    """
    if not (reference_volts > 0 and 0.85 <= volts / reference_volts <= 1.15):
        raise InputError(
            f"mains: {volts:g} V against {reference_volts:g} V; allowed is a change within 15 %, for example"
            " '223 V' against '230 V'"
        )
    return (volts / reference_volts) ** exponent


def drift_stops(volts: float, reference_volts: float, exponent: float = PAPER_EXPONENT) -> float:
    """What the mains costs [stops]: negative where there is less light than at the reference voltage [V]."""
    return math.log2(output_ratio(volts, reference_volts, exponent))


@dataclass(frozen=True)
class WarmUp:
    """How the light settles after switching on: seconds since then [s], and readings of any one kind.

    The last reading is taken as steady.
    """

    seconds: tuple[float, ...]
    readings: tuple[float, ...]

    def __post_init__(self) -> None:
        if len(self.seconds) != len(self.readings) or len(self.seconds) < 3:
            raise InputError(
                "warm-up: at least three readings with their times are needed, '0 s 9.1 lx' and so on"
            )
        if any(b <= a for a, b in zip(self.seconds, self.seconds[1:], strict=False)):
            raise InputError(
                "warm-up: the times must rise, the first is the first reading after switching on"
            )
        if min(self.readings) <= 0 or self.seconds[0] < 0:
            raise InputError("warm-up: readings must be more than zero and times not negative")

    def settled_s(self, tolerance_stops: float = 0.03) -> float:
        """The time of the first reading [s] from which all are within `tolerance_stops` of the last one."""
        off = [abs(self.off_stops(second)) > tolerance_stops for second in self.seconds]
        unsteady = [index for index, away in enumerate(off) if away]
        return self.seconds[unsteady[-1] + 1] if unsteady else self.seconds[0]

    def off_stops(self, second: float) -> float:
        """How far the light is from steady [stops] at a time after switching on [s]."""
        return math.log2(self._at(second) / self.readings[-1])

    def loss_stops(self, exposure_s: float) -> float:
        """What an exposure of `exposure_s` [s] begun with a cold lamp gives, against a warm one [stops]."""
        if not 0 < exposure_s < math.inf:
            raise InputError(f"exposure: {exposure_s:g} s must be more than zero, for example '6 s'")
        inside = [second for second in self.seconds if 0 < second < exposure_s]
        return math.log2(self._mean([0.0, *inside, exposure_s]) / self.readings[-1])

    def _mean(self, seconds: Sequence[float]) -> float:
        """Mean reading over a stretch of time, by straight lines between the readings."""
        areas = [
            (b - a) * (self._at(a) + self._at(b)) / 2 for a, b in zip(seconds, seconds[1:], strict=False)
        ]
        return sum(areas) / (seconds[-1] - seconds[0])

    def _at(self, second: float) -> float:
        place = bisect.bisect_right(self.seconds, second)
        if place == 0:
            return self.readings[0]
        if place == len(self.seconds):
            return self.readings[-1]
        before, after = self.seconds[place - 1], self.seconds[place]
        share = (second - before) / (after - before)
        return self.readings[place - 1] * (1 - share) + self.readings[place] * share
