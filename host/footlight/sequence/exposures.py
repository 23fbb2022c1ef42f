"""How long a light step burns, and the arithmetic behind it. The times are `footlight.light`'s."""

from dataclasses import dataclass
from typing import Any

from footlight.errors import InputError
from footlight.light import cautions, exposure
from footlight.light.exposure import Exposure
from footlight.quantities import format_seconds
from footlight.sequence.model import Dose, Light


@dataclass(frozen=True)
class Arithmetic:
    """The light of one step. time_ms: light to give, without dead time [ms]. text: the arithmetic, one
    line. exposure: the whole computation, None where the time was written. notes: what to know."""

    step_number: int
    name: str
    time_ms: int
    text: str
    exposure: Exposure | None
    notes: tuple[str, ...]

    def as_dict(self) -> dict[str, Any]:
        """For `--json`; units are in the keys."""
        whole = self.exposure.as_dict() if self.exposure else None
        return {
            "step": self.step_number,
            "time_ms": self.time_ms,
            "arithmetic": self.text,
            "exposure": whole,
            "notes": list(self.notes),
        }


def light_of(step: Light, what: str) -> Arithmetic:
    """The light of a step. `what` heads messages. Raises InputError where the setup cannot tell."""
    setup = step.placed.setup
    if step.dose is None:
        text = f"{format_seconds(step.time_ms / 1000)} at {setup.here}, as written"
        notes = cautions.of_switching(setup.build, step.time_ms / 1000)
        return Arithmetic(step.number, step.name, step.time_ms, text, None, notes)
    whole = _exposure(step, step.dose, f"{what}: dose")
    seconds = whole.seconds
    if step.already is not None:
        seconds -= _exposure(step, step.already, f"{what}: already").seconds
    time_ms = round(seconds * 1000)
    text = _said(whole, time_ms, step.already is not None)
    if time_ms < 1:
        raise InputError(f"{what}: {text}; nothing is left to give: already must be less than dose")
    notes = tuple(dict.fromkeys(whole.notes + cautions.of_switching(setup.build, seconds)))
    return Arithmetic(step.number, step.name, time_ms, text, whole, notes)


def _said(whole: Exposure, time_ms: int, is_rest: bool) -> str:
    """The arithmetic in one line; without an arrow where nothing is changed from the reference."""
    text = whole.arithmetic if whole.factors or whole.offset_stops else whole.start
    if not is_rest:
        return text
    had_s = whole.seconds - time_ms / 1000
    return f"{text}; less {format_seconds(had_s)} already given = {format_seconds(max(time_ms, 0) / 1000)}"


def _exposure(step: Light, dose: Dose, what: str) -> Exposure:
    setup = step.placed.setup
    if dose.lux_s is not None and setup.meter is None:
        raise InputError(
            f"{what}: '{dose.written}' needs a meter reading in light setup '{setup.name}'; write there for"
            ' example meter = "12 lx at 620 mm f/11"'
        )
    if dose.lux_s is None and setup.reference is None:
        raise InputError(
            f"{what}: '{dose.written}' needs a reference exposure in light setup '{setup.name}'; write there"
            ' for example reference = "6.0 s at 620 mm f/11"'
        )
    try:
        if dose.lux_s is not None:
            return exposure.for_dose(setup, dose.lux_s)
        if dose.reference_s is not None:
            return exposure.for_reference_seconds(setup, dose.reference_s)
        return exposure.for_setup(setup, offset_stops=dose.stops or 0.0)
    except InputError as error:
        raise InputError(f"{what}: {error}") from None
