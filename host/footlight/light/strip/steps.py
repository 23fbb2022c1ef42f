"""How much light each band of a strip gets [s]."""

import math

from footlight.errors import InputError

# Ten times the dose: far enough up the curve that more light changes nothing (common practice, no source).
ANCHOR_TIMES = 10.0
MOST_BANDS = 25


def fstop_steps(centre_s: float, step_stops: float, count: int) -> list[float]:
    """`count` times [s] about `centre_s` [s], each `step_stops` [stops] more than the one before.

    Raises `InputError` for an even count, which has no centre, and for steps below 1/12 or above 2 stops.
    """
    _positive(centre_s, "centre")
    _count(count, least=3)
    if count % 2 == 0:
        raise InputError(f"strip: {count} steps have no centre; write an odd number, for example 7")
    if not 1 / 12 - 1e-9 <= step_stops <= 2:
        raise InputError(
            f"strip: a step of {step_stops:g} stop; allowed is 1/12 to 2 stops, for example '1/3 stop'"
        )
    half = count // 2
    return [centre_s * 2 ** (step_stops * place) for place in range(-half, half + 1)]


def arithmetic_steps(first_s: float, step_s: float, count: int) -> list[float]:
    """`count` times [s] from `first_s` [s] up, each `step_s` [s] more than the one before."""
    _positive(first_s, "first step")
    _positive(step_s, "step")
    _count(count, least=2)
    return [first_s + step_s * place for place in range(count)]


def added(totals_s: list[float]) -> list[float]:
    """The light to add at each move [s] so that the bands sum up to `totals_s` [s], which must rise."""
    if any(b <= a for a, b in zip(totals_s, totals_s[1:], strict=False)):
        raise InputError("strip: the times of the bands must rise from one to the next")
    return [b - a for a, b in zip([0.0, *totals_s], totals_s, strict=False)]


def anchor_s(totals_s: list[float]) -> float:
    """The anchor band: ten times the middle dose [s], or twice the largest where that is more."""
    middle = totals_s[len(totals_s) // 2]
    return max(ANCHOR_TIMES * middle, 2 * totals_s[-1])


def _positive(seconds: float, what: str) -> None:
    if not 0 < seconds < math.inf:
        raise InputError(f"strip: {what} {seconds:g} s must be more than zero, for example '6 s'")


def _count(count: int, least: int) -> None:
    if not least <= count <= MOST_BANDS:
        raise InputError(f"strip: {count} steps; allowed is {least} to {MOST_BANDS}, for example 7")
