"""A computed exposure of the enlarger in words."""

from collections.abc import Sequence

from footlight.light.bigger import Bigger
from footlight.light.exposure import Exposure
from footlight.quantities import format_seconds, format_sheet


def exposure_lines(answer: Exposure) -> list[str]:
    """The answer first, then its arithmetic, then what to know."""
    first, *changes = answer.itemised[:-1]
    doubt = f", {answer.budget}" if str(answer.budget) else ""
    return [
        f"{format_seconds(answer.seconds)} at {answer.to}{doubt}",
        f"  from {first}",
        *(f"  {line}" for line in changes),
        *(f"! {note}" for note in answer.notes),
    ]


def choice_lines(answers: Sequence[Exposure], first: str | None = None) -> list[str]:
    """Each of several answers, `or` between them; first: a line before the first."""
    lines = []
    for place, answer in enumerate(answers):
        lines += ["or"] if place else [first] if first else []
        lines += exposure_lines(answer)
    return lines


def bigger_lines(answer: Bigger) -> list[str]:
    """The same exposure on another sheet: how even it is, where the lamp goes, what more of each bath."""
    even = f"{format_sheet(answer.stay.sheet)} is even enough where the lamp is: the exposure stays."
    up = f"for corners within {answer.tolerance_stops:.2f} stop, {answer.raised.height_mm:.0f} mm:"
    lines = [f"{answer.before.summary}; {answer.stay.summary}", even if answer.can_stay else up]
    lines += choice_lines(answer.answers)
    if answer.area_ratio > 1.01:
        lines.append(
            f"! The sheet has {answer.area_ratio:.3g} times the area: so much more of each bath is used up."
        )
    return lines
