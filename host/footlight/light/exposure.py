"""The time for another height, stop, lens, lamp, filter or neutral density, from one exposure found good.

The answer carries its arithmetic, its doubt and its warnings. Times are light given, without dead time:
the controller adds that.

    >>> from footlight.light import exposure
    >>> found = exposure.for_setup(setup)              # setup: LightSetup
    >>> found.duration_ms, found.arithmetic
    (9990, '6.0 s at 620 mm f/11 → 10.0 s at 800 mm f/11, ± 0.08 stop')
"""

import math
from dataclasses import dataclass

from footlight.errors import InputError
from footlight.light import cautions, doubts
from footlight.light.departure import exponent
from footlight.light.factors import Factor, factors
from footlight.light.setup import Arrangement, Build, Departure, LightSetup, Reference
from footlight.light.tolerances import Tolerances
from footlight.light.uncertainty import Budget
from footlight.quantities import format_seconds, format_stops

_STANDARD = Tolerances()
_COMMON_BUILD = Build()
_NO_CHANGE_STOPS = 1e-9


@dataclass(frozen=True)
class Exposure:
    """A computed exposure.

    seconds: light to give [s], dead time not included. start: what it was computed from, as text.
    reciprocity_s: the same without long-exposure behaviour [s].
    to: where it is given. factors: every change with its arithmetic. offset_stops: more (or less) light
    that was asked for [stops]. departure: the measured long-exposure behaviour, None where p is assumed.
    budget: how sure it is. notes: what the printer should know, one sentence each.
    """

    seconds: float
    reciprocity_s: float
    start: str
    to: Arrangement
    factors: tuple[Factor, ...]
    offset_stops: float
    departure: Departure | None
    budget: Budget
    notes: tuple[str, ...]

    @property
    def duration_ms(self) -> int:
        """Light to give [ms], dead time not included."""
        return round(self.seconds * 1000)

    @property
    def illuminance_stops(self) -> float:
        """How much dimmer the light is than where the exposure was found [stops]."""
        return sum(factor.stops for factor in self.factors)

    @property
    def arithmetic(self) -> str:
        """One line: `6.0 s at 620 mm f/11 → 10.0 s at 800 mm f/11, ± 0.08 stop`."""
        offset = f", {format_stops(self.offset_stops)}" if self.offset_stops else ""
        doubt = f", ± {self.budget.stops:.2f} stop" if str(self.budget) else ""
        return f"{self.start}{offset} → {format_seconds(self.seconds)} at {self.to}{doubt}"

    @property
    def summary(self) -> str:
        """One line: `10.0 s ± 0.08 stop, mostly the height (± 10 mm)`."""
        return f"{format_seconds(self.seconds)} {self.budget}".rstrip()

    @property
    def itemised(self) -> list[str]:
        """The arithmetic, a line for each change."""
        lines = [self.start, *(f"  {factor}" for factor in self.factors)]
        if abs(math.log2(self.seconds / self.reciprocity_s)) > _NO_CHANGE_STOPS:
            lines.append(f"  {self._long_exposure}")
        if self.offset_stops:
            lines.append(f"  asked for: {format_stops(self.offset_stops)}")
        return [*lines, f"= {self.summary} at {self.to}"]

    @property
    def _long_exposure(self) -> str:
        p, how = exponent(self.departure), "measured" if self.departure else "not measured"
        return (
            f"long exposure, p = {p:g} ({how}): {self.illuminance_stops:+.2f} stop / {p:g};"
            f" by reciprocity {format_seconds(self.reciprocity_s)}"
        )

    def as_dict(self) -> dict[str, object]:
        """For `--json`; units are in the keys."""
        return {
            "seconds": round(self.seconds, 4),
            "reciprocity_seconds": round(self.reciprocity_s, 4),
            "height_mm": self.to.height_mm,
            "stop": str(self.to.stop) if self.to.stop else None,
            "offset_stops": self.offset_stops,
            "factors": [{"text": factor.text, "stops": round(factor.stops, 4)} for factor in self.factors],
            "uncertainty": self.budget.as_dict(),
            "arithmetic": self.arithmetic,
            "summary": self.summary,
            "notes": list(self.notes),
        }


def convert(
    seconds: float,
    at: Arrangement,
    to: Arrangement,
    *,
    offset_stops: float = 0.0,
    bridge_stops: float | None = None,
    departure: Departure | None = None,
    tolerances: Tolerances = _STANDARD,
    build: Build = _COMMON_BUILD,
) -> Exposure:
    """The exposure at `to` that does to the paper what `seconds` [s] did at `at`.

    offset_stops: more light wanted [stops], as a factor on the time. bridge_stops: how much longer [stops]
    the new lamp or filter needs, from a bridging strip; without it a change of lamp or filter is refused.
    departure: measured long-exposure behaviour; without it p = 0.9 ± 0.1 is taken, as in the camera, and the
    doubt about it enters the uncertainty. build: how the lamp is built and switched, for the warnings.

    Assumes that light falls with the square of the distance from the lens pupil, and that head and lens
    are otherwise unchanged. Raises `InputError` for a refused change and a time of zero or less.
    """
    if not 0 < seconds < float("inf"):
        raise InputError(f"exposure: {seconds:g} s must be more than zero, for example '6 s'")
    found = tuple(factors(at, to, tolerances, bridge_stops))
    dimmer_stops = sum(factor.stops for factor in found)
    p = exponent(departure)
    answer_s = seconds * 2 ** (dimmer_stops / p + offset_stops)
    reciprocity_s = seconds * 2 ** (dimmer_stops + offset_stops)
    terms = [term._replace(stops=term.stops / p) for factor in found for term in factor.terms]
    terms += doubts.of_the_time(seconds, answer_s, dimmer_stops, departure, tolerances)
    notes = () if departure else cautions.of_long_exposures(answer_s, reciprocity_s)
    notes += cautions.of_the_law(at, to) + cautions.of_switching(build, answer_s)
    notes += cautions.of_the_head(build, at, to)
    start = f"{format_seconds(seconds)} at {at}"
    budget = Budget(tuple(terms))
    return Exposure(answer_s, reciprocity_s, start, to, found, offset_stops, departure, budget, notes)


def reference_of(setup: LightSetup) -> Reference:
    """The reference exposure of a setup; raises `InputError` where there is none."""
    if setup.reference is None:
        raise InputError(
            f"light setup '{setup.name}': no reference exposure; make a strip and write the exposure"
            " found good, for example reference = '6.0 s at 620 mm f/11'"
        )
    return setup.reference


def for_setup(
    setup: LightSetup, *, offset_stops: float = 0.0, tolerances: Tolerances = _STANDARD
) -> Exposure:
    """The reference exposure of a setup, carried to where the setup stands now.

    Raises `InputError` where the setup has no reference exposure.
    """
    reference = reference_of(setup)
    return for_reference_seconds(setup, reference.seconds, offset_stops=offset_stops, tolerances=tolerances)


def for_reference_seconds(
    setup: LightSetup, seconds: float, *, offset_stops: float = 0.0, tolerances: Tolerances = _STANDARD
) -> Exposure:
    """A dose in reference seconds (seconds of the light at the reference height and stop), given here.

    Raises `InputError` where the setup has no reference exposure.
    """
    reference = reference_of(setup)
    at = setup.arranged(reference.height_mm, reference.stop)
    return _for(setup, seconds, at, offset_stops, tolerances)


def for_dose(
    setup: LightSetup, dose_lux_s: float, *, offset_stops: float = 0.0, tolerances: Tolerances = _STANDARD
) -> Exposure:
    """The time for a dose [lx s], from the setup's meter reading carried to where the setup stands now.

    The dose must come from the same lamp and filter (`footlight.light.dose` sees to that). Raises
    `InputError` where the setup has no meter reading.
    """
    meter = setup.meter
    if meter is None:
        raise InputError(
            f"light setup '{setup.name}': a dose in lux-seconds needs a meter reading; measure on the"
            " sheet's place and write it, for example meter = '12 lx at 620 mm f/11'"
        )
    if not 0 < dose_lux_s < float("inf"):
        raise InputError(f"dose: {dose_lux_s:g} lx s must be more than zero, for example '15 lx s'")
    at = setup.arranged(meter.height_mm, meter.stop)
    return _for(setup, dose_lux_s / meter.lux, at, offset_stops, tolerances)


def _for(
    setup: LightSetup, seconds: float, at: Arrangement, offset_stops: float, tolerances: Tolerances
) -> Exposure:
    return convert(
        seconds,
        at,
        setup.here,
        offset_stops=offset_stops,
        departure=setup.departure,
        tolerances=tolerances,
        build=setup.build,
    )
