"""The same evening: three answers under white light, wet, and the same rule with wider intervals. No numpy.

Between two steps that look alike lies anything less than the eye tells apart; a step that first looks alike
can be judged one step too early or late. So each limit carries half a step and one judged step.
"""

import math
from dataclasses import dataclass
from typing import Any

from footlight.errors import InputError
from footlight.strips.judge import words
from footlight.strips.judge.bound import Bound
from footlight.strips.judge.cause import CONFOUNDERS
from footlight.strips.judge.decision import Decision, decide, margin, weak_anchor

# How far a wet judgement strays, in steps, 90 % (common practice, no source; a scan settles it).
_STRAY_STEPS = 1.0


@dataclass(frozen=True)
class Answers:
    """first_full: first step whose black equals its neighbour's beyond it. last_clean: last step whose white
    equals the zero step's. clean_anchor: is the anchor an even, full black? Steps from 1; 0: none."""

    first_full: int
    last_clean: int
    clean_anchor: bool


def read(
    answers: Answers, stops: list[float], repeatability_stops: float | None = None
) -> tuple[Decision, Bound, Bound]:
    """The decision, L and U. stops: of steps 1 … n, without zero and anchor [stops]."""
    count = len(stops)
    if count < 2:
        raise InputError(f"strip: {count} steps; two or more are needed to judge by eye")
    for what, step in (("first full black", answers.first_full), ("last clean white", answers.last_clean)):
        if not 0 <= step <= count:
            raise InputError(f"{what}: step {step}; allowed is 1 to {count}, or 0 for none")
    pitch = (stops[-1] - stops[0]) / (count - 1)
    clean = _clean(answers.last_clean, stops, pitch)
    if not answers.clean_anchor:
        return weak_anchor(margin(repeatability_stops)), _never("black"), clean
    full = _full(answers.first_full, stops, pitch)
    middle = (stops[0] + stops[-1]) / 2
    return decide(full, clean, margin(repeatability_stops), pitch, middle), full, clean


_WEAK_ANCHOR = (
    "no second exposure will mend a weak anchor: look to pre-flash, safelight before the first development,"
    " and the second developer"
)
_NO_WINDOW = (
    "whites that go before the blacks are full: halide or silver left after the bleach, safelight, or too"
    " little first exposure or development; a scan of the dry strip tells them apart"
)
_WET = "wet blacks look fuller than dry ones; a scan of the dry strip settles it"


def notes(decision: Decision) -> tuple[str, ...]:
    """What may be the cause, and what a wet judgement is worth."""
    causes = {"weak anchor": (_WEAK_ANCHOR,), "no window": (_NO_WINDOW,)}
    return (*causes.get(decision.reason, ()), _WET)


def as_dict(decision: Decision, full: Bound, clean: Bound, present_s: float) -> dict[str, Any]:
    """For `--json`; null: beyond the strip."""
    dose = decision.dose_stops
    return {
        "dose_stops": None if dose is None else round(dose, 3),
        "dose_s": None if dose is None else round(present_s * 2**dose, 3),
        "reason": decision.reason,
        "full_stops": [_finite(v) for v in (full.low, full.stops, full.high)],
        "clean_stops": [_finite(v) for v in (clean.low, clean.stops, clean.high)],
        "next_centre_stops": _rounded(decision.next_centre_stops),
        "next_step_stops": _rounded(decision.next_step_stops),
        "words": (*words.advice(decision, full, clean, present_s), CONFOUNDERS),
        "notes": notes(decision),
    }


def _rounded(value: float | None) -> float | None:
    return None if value is None else round(value, 3)


def _finite(value: float) -> float | None:
    return round(value, 3) if math.isfinite(value) else None


def _never(by: str) -> Bound:
    return Bound(math.inf, math.inf, math.inf, by)


def _full(step: int, stops: list[float], pitch: float) -> Bound:
    """L lies between the step before the first full one and that one."""
    if step == 0:
        return _never("black")
    at = stops[step - 1] - pitch / 2
    return Bound(at, at - pitch * (0.5 + _STRAY_STEPS), at + pitch * _STRAY_STEPS, "black")


def _clean(step: int, stops: list[float], pitch: float) -> Bound:
    """U lies between the last clean step and the next; above the strip if all are clean."""
    if step == 0:
        return Bound(-math.inf, -math.inf, stops[0], "white")
    if step == len(stops):
        return Bound(math.inf, stops[-1] - pitch * _STRAY_STEPS, math.inf, "white")
    at = stops[step - 1] + pitch / 2
    return Bound(at, at - pitch * (0.5 + _STRAY_STEPS / 2), at + pitch * _STRAY_STEPS, "white")
