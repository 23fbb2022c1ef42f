"""The planned time line: when each step begins and ends if nobody waits."""

from dataclasses import dataclass
from typing import Any, Literal

from footlight_core.program import LIGHT, gate_ms, kind_of

Judged = Literal["least", "middle", "most"]


@dataclass(frozen=True)
class Span:
    """One step of one sheet.

    kind: of the program (`program.KINDS`). start_ms, end_ms: from the first
    release of the run [ms]; a light's span is its gate time. lift_ms: its last part, lifting [ms].
    settle_ms: what the sheet settles before start_ms [ms]. sheet: 1 for the first of a batch. aside: runs
    beside the steps after it.
    """

    step_number: int
    name: str
    kind: str
    start_ms: int
    end_ms: int
    lift_ms: int = 0
    settle_ms: int = 0
    sheet: int = 1
    aside: bool = False


def timeline(program: dict[str, Any], judged: Judged = "middle") -> list[Span]:
    """Spans of all sheets, in order. Transfers and pauses take no time: your foot decides them.

    program: a checked program. judged: when steps that are judged by eye end: at their least time, half-way
    to the most, or at the most.
    """
    spans: list[Span] = []
    now_ms = 0
    for sheet in range(1, program["sheets"] + 1):
        for number, step in enumerate(program["steps"], start=1):
            span = _span(number, step, now_ms, sheet, judged)
            spans.append(span)
            now_ms = now_ms if span.aside else span.end_ms
    return spans


def _span(number: int, step: dict[str, Any], now_ms: int, sheet: int, judged: Judged) -> Span:
    settle_ms = step.get("settle_ms", 0)
    start_ms = now_ms + settle_ms
    return Span(
        step_number=number,
        name=step["name"],
        kind=step["kind"],
        start_ms=start_ms,
        end_ms=start_ms + _length_ms(step, judged),
        lift_ms=step.get("lift_ms", 0),
        settle_ms=settle_ms,
        sheet=sheet,
        aside=bool(step.get("aside", 0)),
    )


def _length_ms(step: dict[str, Any], judged: Judged) -> int:
    if step["kind"] == LIGHT:
        return gate_ms(step)
    most_ms = kind_of(step).time_ms(step)
    least_ms = step.get("least_ms", most_ms)
    return {"least": least_ms, "middle": (least_ms + most_ms) // 2, "most": most_ms}[judged]


def end_ms(spans: list[Span], *, aside: bool) -> int:
    """When the last span ends [ms]; with or without those that run aside."""
    return max((span.end_ms for span in spans if aside or not span.aside), default=0)
