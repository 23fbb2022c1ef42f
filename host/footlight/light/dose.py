"""Dose: lux-seconds where a meter was read, reference seconds otherwise.

A meter sees as the eye does; paper sees blue. So lux-seconds are comparable only within one lamp and
filter, and between two of them only through a bridging strip: the same paper, matched under both.
"""

import math
from dataclasses import dataclass, replace

from footlight.errors import InputError
from footlight.light.exposure import Exposure, for_dose
from footlight.light.setup import LightSetup
from footlight.light.tolerances import Tolerances
from footlight.light.uncertainty import Budget, Term

_STANDARD = Tolerances()


@dataclass(frozen=True)
class Dose:
    """An exposure in lux-seconds [lx s], and the lamp and filter it belongs to."""

    lux_s: float
    lamp: str
    filter: str | None = None

    def __post_init__(self) -> None:
        if not 0 < self.lux_s < math.inf:
            raise InputError(f"dose: {self.lux_s:g} lx s must be more than zero, for example '15 lx s'")

    @property
    def light(self) -> str:
        """The lamp and filter, as text."""
        return f"lamp '{self.lamp}', " + (f"filter '{self.filter}'" if self.filter else "no filter")

    def __str__(self) -> str:
        return f"{self.lux_s:.3g} lx s"


@dataclass(frozen=True)
class Bridge:
    """What a bridging strip found: the second light needs `stops` more lux-seconds than the first [stops]."""

    first: Dose
    second: Dose
    uncertainty_stops: float = _STANDARD.bridge_stops

    @property
    def stops(self) -> float:
        """log2 of second over first [stops]."""
        return math.log2(self.second.lux_s / self.first.lux_s)

    def carry(self, dose: Dose) -> Dose:
        """`dose` of either light, as a dose of the other; raises `InputError` for a third light."""
        for start, end in ((self.first, self.second), (self.second, self.first)):
            if (dose.lamp, dose.filter) == (start.lamp, start.filter):
                return replace(end, lux_s=dose.lux_s * end.lux_s / start.lux_s)
        raise InputError(
            f"dose of {dose.light}: the bridging strip joins {self.first.light} with"
            f" {self.second.light}; make one"
            " for this light"
        )


def measured(seconds: float, lux: float, lamp: str, filter: str | None = None) -> Dose:
    """The dose of `seconds` [s] under `lux` [lx]."""
    if not 0 < seconds < math.inf or not 0 < lux < math.inf:
        raise InputError(f"dose: {seconds:g} s at {lux:g} lx; both must be more than zero, '6 s' and '12 lx'")
    return Dose(seconds * lux, lamp, filter)


def carried(dose: Dose, lamp: str, filter: str | None, bridge: Bridge | None = None) -> Dose:
    """`dose` as a dose of another lamp and filter; itself where they are the same.

    Raises `InputError` where they differ and no bridging strip joins the two.
    """
    if (dose.lamp, dose.filter) == (lamp, filter):
        return dose
    wanted = replace(dose, lamp=lamp, filter=filter)
    if bridge is None:
        raise InputError(
            f"dose of {dose.light}: wanted under {wanted.light}, which paper sees differently;"
            " make a bridging"
            " strip (one paper matched under both lights) and give both its doses"
        )
    there = bridge.carry(dose)
    if (there.lamp, there.filter) != (lamp, filter):
        raise InputError(
            f"dose wanted under {wanted.light}: the bridging strip leads to {there.light} instead"
        )
    return there


def doubt(bridge: Bridge | None, tolerances: Tolerances = _STANDARD) -> Budget:
    """How sure a dose is under another reading: the meter, and the bridging strip where there was one."""
    meter = Term("the meter", f"± {tolerances.meter_stops:.2g} stop", tolerances.meter_stops)
    if bridge is None:
        return Budget((meter,))
    off_stops = bridge.uncertainty_stops
    return Budget((meter, Term("the bridging strip", f"± {off_stops:.2f} stop", off_stops)))


def exposure_of(
    dose: Dose, setup: LightSetup, bridge: Bridge | None = None, tolerances: Tolerances = _STANDARD
) -> Exposure:
    """The exposure that gives `dose` in a setup with a meter reading.

    Raises `InputError` where lamp or filter differ and no bridging strip joins the two.
    """
    there = carried(dose, setup.lamp, setup.filter, bridge)
    found = for_dose(setup, there.lux_s, tolerances=tolerances)
    terms = doubt(bridge if there is not dose else None, tolerances).terms
    return replace(found, budget=found.budget.with_terms(*terms))
