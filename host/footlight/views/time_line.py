"""The planned time line as rows: when each step begins, how long it takes, and where it lies in the whole."""

from collections.abc import Sequence
from dataclasses import dataclass

from footlight.quantities import format_clock, format_seconds
from footlight.sequence.spans import Span
from footlight_core.program import LIGHT


@dataclass(frozen=True)
class TimeRow:
    """A step. starts, lasts: in words. from_share, share, lift_share: of the whole run, 0 to 1."""

    number: int
    name: str
    kind: str
    starts: str
    lasts: str
    from_share: float
    share: float
    lift_share: float


def time_rows(spans: Sequence[Span]) -> list[TimeRow]:
    """The steps of the first sheet, in order."""
    first = [span for span in spans if span.sheet == 1]
    whole_ms = max([span.end_ms for span in first], default=0) or 1
    return [_row(span, whole_ms) for span in first]


def total_text(spans: Sequence[Span]) -> str:
    """How long all of it takes if nobody waits."""
    sheets = max([span.sheet for span in spans], default=1)
    batch = f", {sheets} sheets" if sheets > 1 else ""
    return f"{format_clock(max([span.end_ms for span in spans], default=0))}{batch}, if nobody waits"


def _row(span: Span, whole_ms: int) -> TimeRow:
    length_ms = span.end_ms - span.start_ms
    lasts = format_seconds(length_ms / 1000) if span.kind == LIGHT else format_clock(length_ms)
    return TimeRow(
        span.step_number,
        span.name,
        span.kind,
        format_clock(span.start_ms),
        lasts if length_ms else "–",
        span.start_ms / whole_ms,
        length_ms / whole_ms,
        span.lift_ms / whole_ms,
    )
