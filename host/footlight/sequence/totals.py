"""When a run ends and white light begins, as planned."""

from dataclasses import dataclass
from typing import Any

from footlight.sequence.compiler import Compiled
from footlight.sequence.spans import Judged, Span, end_ms, timeline
from footlight_core.program import kind_of, white_from


@dataclass(frozen=True)
class Totals:
    """All [ms], from the first release, if nobody waits. sheet_ms: one sheet, steps that run aside left
    out. aside_ms: when the last step that runs aside ends, 0 without one. run_ms: all sheets. least_ms,
    most_ms: one sheet, with the steps judged by eye at their least and most. white_step, white_ms: where
    white light is permitted in the first sheet's life; None, None where it never is."""

    sheet_ms: int
    aside_ms: int
    run_ms: int
    least_ms: int
    most_ms: int
    white_step: int | None
    white_ms: int | None

    def as_dict(self) -> dict[str, Any]:
        """For `--json`."""
        return dict(vars(self))


def totals(compiled: Compiled, judged: Judged = "middle") -> Totals:
    """The totals of a program; `judged` says when steps judged by eye end."""
    program = compiled.program
    spans = timeline(program, judged)
    first = [span for span in spans if span.sheet == 1]
    white = white_from(program)
    white_span = first[white] if white < len(first) else None
    return Totals(
        sheet_ms=end_ms(first, aside=False),
        aside_ms=end_ms([span for span in spans if span.aside], aside=True),
        run_ms=end_ms(spans, aside=False),
        least_ms=_sheet_ms(program, "least"),
        most_ms=_sheet_ms(program, "most"),
        white_step=white_span.step_number if white_span else None,
        white_ms=white_span.start_ms if white_span else None,
    )


def _sheet_ms(program: dict[str, Any], judged: Judged) -> int:
    spans: list[Span] = timeline({**program, "sheets": 1}, judged)
    return end_ms(spans, aside=False)


def has_judged(compiled: Compiled) -> bool:
    """Is there a step that is judged by eye?"""
    return any(kind_of(step).is_judged() for step in compiled.program["steps"])
