"""The rule: which dose is safe, or none; what the next strip should be. Pure arithmetic.

The loss is lopsided: mottle kills the sheet, a black a little short is hardly seen; and U falls as the bleach
ages. So the advice is not the middle of the window, but the surely full black and a margin, and only where
that stays a margin below the surely clean white.
"""

import math
from dataclasses import dataclass

from footlight.strips.bound import Bound

MARGIN_STOPS = 1 / 3
NEXT_STEP_STOPS = 1 / 3
NEXT_STEPS = 9
_CLOSE_STOPS = 0.15


@dataclass(frozen=True)
class Decision:
    """dose_stops: None where none is safe. reason: '' or why. next_*: the strip to make, None for none."""

    dose_stops: float | None
    reason: str
    margin_stops: float
    next_centre_stops: float | None
    next_step_stops: float | None


def margin(repeatability_stops: float | None) -> float:
    """A third of a stop, or the measured repeatability where that is more [stops]."""
    return max(MARGIN_STOPS, repeatability_stops or 0.0)


def decide(full: Bound, clean: Bound, margin_stops: float, step_stops: float) -> Decision:
    """Apply the rule to L (`full`) and U (`clean`), both in stops from the present dose."""
    if not math.isfinite(full.high) or not math.isfinite(full.stops):
        return _no_black(full, margin_stops, step_stops)
    dose = full.high + margin_stops
    if clean.by == "no white band":
        return Decision(None, "no white band", margin_stops, full.stops + margin_stops, NEXT_STEP_STOPS)
    if dose <= clean.low - margin_stops:
        sharp = full.high - full.low <= _CLOSE_STOPS and step_stops <= 0.51
        centre = None if sharp else full.stops + MARGIN_STOPS
        return Decision(dose, "", margin_stops, centre, None if sharp else NEXT_STEP_STOPS)
    return _no_window(full, clean, margin_stops, step_stops)


def _no_black(full: Bound, margin_stops: float, step_stops: float) -> Decision:
    if full.stops == -math.inf:
        return Decision(None, "black everywhere", margin_stops, None, step_stops)
    return Decision(None, "black nowhere", margin_stops, None, step_stops)


def _no_window(full: Bound, clean: Bound, margin_stops: float, step_stops: float) -> Decision:
    """Too little between L and U: surely so, or only not surely enough, when a finer strip may tell."""
    surely = full.stops + 2 * margin_stops > clean.stops
    centre = full.stops + MARGIN_STOPS
    if surely or step_stops <= 0.51:
        return Decision(None, "no window", margin_stops, centre if not surely else None, NEXT_STEP_STOPS)
    return Decision(None, "window not sure", margin_stops, centre, NEXT_STEP_STOPS)
