"""Advice in words: what the decision means for the printer. Pure text."""

import math

from footlight.quantities import format_seconds, format_stops
from footlight.strips.judge.bound import Bound
from footlight.strips.judge.decision import NEXT_STEPS, Decision


def advice(decision: Decision, full: Bound, clean: Bound, present_s: float) -> tuple[str, ...]:
    """The decision, a sentence each; present_s: the present dose [s]."""
    words = [_dose(decision, full, clean, present_s)]
    if math.isfinite(full.stops) and not decision.reason.endswith("clipped"):
        words.append(_limits(full, clean, present_s))
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
    "no white band": "Black is full at {full}. The band 'just white' is not on this strip, or could not be"
    " measured, so nothing says how far to go: make a crossed strip on plain paper.",
    "no window": "No safe dose: black is full only at {full}, and white is spoilt from {clean} on. More or"
    " less light cannot mend that.",
    "window not sure": "No safe dose yet: black is full at about {full}, white holds to about {clean}, but"
    " this strip is too coarse to promise it.",
    "black everywhere": "Every step is full black already: the next strip must lie three stops lower.",
    "black nowhere": "No step is full black: the next strip must lie three stops higher; look at its anchor.",
    "no anchor": "No safe dose: the anchor is missing, so nothing says how black full black is. By the last"
    " step it begins at about {full}; make the next strip with its anchor.",
    "black clipped": "No safe dose: the scanner clipped the blacks, so nothing says where they are full. Scan"
    " again in 16 bits, without automatic contrast.",
    "black at floor": "No safe dose: several steps are one black beyond the tablet's darkest patch,"
    " which a scanner"
    " that clips would show too. Scan with a tablet that reaches the blacks, without automatic contrast.",
    "white clipped": "No safe dose: the scanner clipped the whites, which hides veil and mottle. Scan again"
    " without automatic contrast, a little darker.",
    "weak anchor": "No safe dose: the anchor is no full black, so no step is.",
}
_WHITES = {"white": "'just white'", "white2": "'white + 2 stops'"}


def _limits(full: Bound, clean: Bound, present_s: float) -> str:
    """L and U with their intervals, and what ends the clean white."""
    black = f"Black is full from {_between(full, present_s)}"
    if clean.by == "no white band":
        return f"{black}. Interval: 90 %."
    what, _, band = clean.by.partition(", ")
    then = f", then {what} in {_WHITES[band]}" if band and clean.stops < math.inf else ""
    return f"{black}; white is clean to {_between(clean, present_s)}{then}. Intervals: 90 %."


def _between(bound: Bound, present_s: float) -> str:
    middle, low, high = (said(stops, present_s) for stops in (bound.stops, bound.low, bound.high))
    if bound.stops == math.inf:
        return f"{middle} (surely to {low})"
    return f"{middle} ({low} to {high})" if bound.stops > -math.inf else middle


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
