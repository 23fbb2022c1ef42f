"""Journals written by hand, record by record, as a controller would write them."""

import hashlib
from dataclasses import dataclass
from typing import Any

from footlight_core import records


@dataclass(frozen=True)
class Line:
    """A record as it arrives."""

    number: int
    line: str
    record: dict[str, Any] | None
    whole: bool = True


def write(*rows: tuple[object, ...], first: int = 1) -> list[Line]:
    """Rows (t_ms, kind, field, field ...) -> lines numbered from `first`."""
    lines = []
    for number, (t_ms, kind, *values) in enumerate(rows, first):
        fields = records.fields_of(kind)
        assert fields is not None and len(fields) == len(values), kind
        record = {"k": kind, "n": number, "t": t_ms} | dict(zip(fields, values, strict=True))
        lines.append(Line(number, records.seal(record).decode(), record))
    return lines


def torn(line: Line) -> Line:
    """A record of which a power cut left the beginning."""
    return Line(line.number, line.line[:20], None, whole=False)


PRINT_PROGRAM = (
    '{"v":1,"title":"PENCIL","name":"reversal print",'
    '"lamps":[{"name":"ENL","cap_ms":30000,"window_ms":60000}],'
    '"steps":[{"kind":"bath","name":"first developer","show":"DEV","time_ms":120000},'
    '{"kind":"light","name":"second exposure","show":"LIGHT","time_ms":8050,"dead_ms":50,"stop":"F11",'
    '"height_mm":620},'
    '{"kind":"judge","name":"clearing","show":"CLEAR","least_ms":30000,"most_ms":240000}]}'
)
SHA = hashlib.sha256(PRINT_PROGRAM.encode()).hexdigest()
SHORT_SHA = SHA[:16]
BOOT = (0, "boot", "power", 0, 1, 0)
# 2026-03-01 18:00:00 UTC, two seconds after switching on.
EVENING = 1_772_388_000
DATED = (2_000, "date", EVENING)


def arm(t_ms: int, run: int, sheet: int, title: str = "PENCIL", sheets: int = 1) -> tuple[object, ...]:
    return (t_ms, "arm", run, 1, SHORT_SHA, title, sheet, sheets)


# One print: a bath over time, a light stopped and resumed, a step judged by eye ended early.
PRINT = (
    BOOT,
    DATED,
    arm(10_000, 1, 41),
    (12_000, "begin", 1, 1, 41),
    (135_500, "step", 1, 1, 41, 12_000, 123_500, "pedal"),
    (135_510, "intent", 1, 2, 41, 8_050, 8_100, SHORT_SHA),
    (150_000, "gave", 1, 2, 41, 3_050, 3_000, 5_050, "held"),
    (150_010, "intent", 1, 2, 41, 5_050, 5_100, SHORT_SHA),
    (170_000, "gave", 1, 2, 41, 5_100, 5_050, 0, "whole"),
    (180_000, "begin", 1, 3, 41),
    (225_000, "step", 1, 3, 41, 180_000, 45_000, "pedal"),
    (225_010, "end", 1, 41, "whole"),
)
