"""The rule: which dose is safe, or none; what the next strip should be. Pure arithmetic.

The loss is lopsided: mottle kills the sheet, a black a little short is hardly seen; and U falls as the bleach
ages. So the advice is not the middle of the window, but the surely full black and a margin, and only where
that stays a margin below the surely clean white.
"""

import math
from dataclasses import dataclass

from footlight.strips.judge.bound import Bound

MARGIN_STOPS = 1 / 3
NEXT_STEP_STOPS = 1 / 3
NEXT_STEPS = 9
_CLOSE_STOPS = 0.15
_MISSED_STOPS, _MISSED_STEP_STOPS = 3.0, 1.0
NO_ANCHOR = "black, no anchor"


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


def decide(
    full: Bound, clean: Bound, margin_stops: float, step_stops: float, middle_stops: float | None = None
) -> Decision:
    """Apply the rule to L (`full`) and U (`clean`), both in stops from the present dose.

    step_stops, middle_stops: how far the strip's steps lie apart, and where their middle is [stops].
    """
    if full.by == NO_ANCHOR and math.isfinite(full.stops):
        return Decision(None, "no anchor", margin_stops, full.stops + MARGIN_STOPS, NEXT_STEP_STOPS)
    if not math.isfinite(full.high) or not math.isfinite(full.stops):
        return _no_black(full, margin_stops, middle_stops)
    dose = full.high + margin_stops
    if clean.by == "no white band":
        return Decision(None, "no white band", margin_stops, full.stops + margin_stops, NEXT_STEP_STOPS)
    if dose <= clean.low - margin_stops:
        sharp = full.high - full.low <= _CLOSE_STOPS and step_stops <= 0.51
        centre = None if sharp else full.stops + MARGIN_STOPS
        return Decision(dose, "", margin_stops, centre, None if sharp else NEXT_STEP_STOPS)
    return _no_window(full, clean, margin_stops, step_stops)


def weak_anchor(margin_stops: float) -> Decision:
    """Where even the anchor is no full black, no step is, and no further strip will find one."""
    return Decision(None, "weak anchor", margin_stops, None, None)


def clipped(which: str, margin_stops: float) -> Decision:
    """Where the scanner clipped `which` (black, white), what it hides may be on either side of a limit."""
    return Decision(None, f"{which} clipped", margin_stops, None, None)


def _no_black(full: Bound, margin_stops: float, middle_stops: float | None) -> Decision:
    """The strip missed: the next one lies so far to the side that its end overlaps this one's middle."""
    below = full.stops == -math.inf
    away = -_MISSED_STOPS if below else _MISSED_STOPS
    centre = None if middle_stops is None else middle_stops + away
    return Decision(
        None, "black everywhere" if below else "black nowhere", margin_stops, centre, _MISSED_STEP_STOPS
    )


def _no_window(full: Bound, clean: Bound, margin_stops: float, step_stops: float) -> Decision:
    """Too little between L and U: surely so, or only not surely enough, when a finer strip may tell."""
    surely = full.stops + 2 * margin_stops > clean.stops
    centre = full.stops + MARGIN_STOPS
    if surely or step_stops <= 0.51:
        return Decision(None, "no window", margin_stops, centre if not surely else None, NEXT_STEP_STOPS)
    return Decision(None, "window not sure", margin_stops, centre, NEXT_STEP_STOPS)
