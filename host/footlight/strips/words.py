"""Advice in words: what the decision means for the printer. Pure text."""

import math

from footlight.quantities import format_seconds, format_stops
from footlight.strips.bound import Bound
from footlight.strips.decision import NEXT_STEPS, Decision


def advice(decision: Decision, full: Bound, clean: Bound, present_s: float) -> tuple[str, ...]:
    """The decision, a sentence each; present_s: the present dose [s]."""
    words = [_dose(decision, full, clean, present_s)]
    if decision.next_centre_stops is not None and decision.next_step_stops is not None:
        centre = present_s * 2**decision.next_centre_stops
        words.append(
            f"Next strip: {NEXT_STEPS} steps of {format_stops(decision.next_step_stops, signed=False)} about"
            f" {format_seconds(centre)}, with zero and anchor."
        )
    return tuple(words)


def _dose(decision: Decision, full: Bound, clean: Bound, present_s: float) -> str:
    if decision.dose_stops is not None:
        seconds = format_seconds(present_s * 2**decision.dose_stops)
        return (
            f"Give {seconds}, {nearly(decision.dose_stops)} from {format_seconds(present_s)} now:"
            f" full black surely by {said(full.high, present_s)}, and a margin of"
            f" {nearly(decision.margin_stops, False)}; white surely clean to {said(clean.low, present_s)}."
        )
    return _REASONS[decision.reason].format(
        full=said(full.stops, present_s), clean=said(clean.stops, present_s)
    )


_REASONS = {
    "no white band": "Black is full at {full}. No white band is on this strip, so nothing says how far to go:"
    " make a crossed strip.",
    "no window": "No safe dose: black is full only at {full}, and white is spoilt from {clean} on. More or"
    " less light cannot mend that; see the cause.",
    "window not sure": "No safe dose yet: black is full at about {full}, white holds to about {clean}, but"
    " this strip is too coarse to promise it.",
    "black everywhere": "Every step is full black already: start the next strip three stops lower.",
    "black nowhere": "No step is full black: start the next strip three stops higher, or look at the anchor.",
}


def nearly(stops: float, signed: bool = True) -> str:
    """Stops to two decimals, or a plain third or half."""
    return format_stops(round(stops, 2) if abs(stops * 3 - round(stops * 3)) > 0.01 else stops, signed=signed)


def said(stops: float, present_s: float) -> str:
    """A dose in seconds, or beyond which end it lies."""
    if stops == math.inf:
        return "beyond the last step"
    if stops == -math.inf:
        return "below the first step"
    return format_seconds(present_s * 2**stops)
