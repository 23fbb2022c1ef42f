"""A light that was counted, in words: what it had, in how long, and how high the lamp stood."""

import math
from collections.abc import Sequence

from footlight import meanings
from footlight.notebook.sheets.by_number import MeasuredPart
from footlight_core.dose import COUNTED

_LEVEL = 1000  # of the warm lamp as it was learnt
_WORTH_SAYING_STOPS = 0.005


def counted_text(parts: Sequence[MeasuredPart]) -> str:
    """`10.0 s counted in 10.8 s: lamp 0.11 stop low`; of what went by seconds, why. '' of no part."""
    said = []
    counted = [part for part in parts if part.how == COUNTED]
    if counted:
        dose_ms, gate_ms = sum(part.dose_ms for part in counted), sum(part.gate_ms for part in counted)
        what = f"{dose_ms / 1000:.1f} s counted in {gate_ms / 1000:.1f} s"
        lamp = lamp_text(level_stops(counted))
        said.append(f"{what}: {lamp}" if lamp else what)
    reasons = dict.fromkeys(part.how for part in parts if part.how != COUNTED)
    said += [f"by seconds: {meanings.BY_SECONDS.get(how, how)}" for how in reasons]
    return "; ".join(said)


def level_stops(parts: Sequence[MeasuredPart]) -> float | None:
    """The lamp's mean level over its parts [stops from the learnt one]; None where it never was steady."""
    steady = [part for part in parts if part.mean > 0]
    gate_ms = sum(part.gate_ms for part in steady)
    if not gate_ms:
        return None
    return math.log2(sum(part.mean * part.gate_ms for part in steady) / gate_ms / _LEVEL)


def lamp_text(stops: float | None) -> str:
    """`lamp 0.11 stop low`; '' where it is not known."""
    if stops is None:
        return ""
    if abs(stops) < _WORTH_SAYING_STOPS:
        return "lamp as learnt"
    return f"lamp {abs(stops):.2f} stop {'low' if stops < 0 else 'high'}"
