"""A computed exposure of the enlarger in words."""

from collections.abc import Sequence

from footlight.light.exposure import Exposure
from footlight.quantities import format_seconds


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
