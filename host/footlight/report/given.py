"""From the records of a run to the bars of its time line: what was really given, and when."""

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from footlight.report.timeline import Bar
from footlight_core.dose import COUNTED

Record = dict[str, Any]
# After a power cut the controller does not know how long it was off: the picture leaves this much.
OFF_MS = 20_000


def given_bars(boots: Sequence[Sequence[Record]], steps: Sequence[Record], sheet: int) -> list[Bar]:
    """Bars of one sheet in one run.

    boots: whole records of the run in order, a list for each time that the controller was switched on.
    steps: of the program, in order; step 1 is the first. Times are counted from the run's first step [ms].
    """
    bars: list[Bar] = []
    shift_ms: int | None = None
    for records in boots:
        mine = [record for record in records if record.get("sheet") == sheet]
        marks = [record for record in mine if record["k"] in ("begin", "step", "gave", "dose")]
        # The first of them says when; how a light was measured only follows it.
        marks = marks[1:] if marks and marks[0]["k"] == "dose" else marks
        if not marks:
            continue
        first_ms = _start_ms(marks[0])
        shift_ms = -first_ms if shift_ms is None else bars[-1].end_ms + OFF_MS - first_ms
        bars = [_closed(bar, first_ms + shift_ms) for bar in bars]
        bars += _bars_of_boot(marks, steps, shift_ms)
    return [bar for bar in bars if bar.end_ms > bar.start_ms]


def _closed(bar: Bar, end_ms: int) -> Bar:
    """A step that a power cut left open is drawn as cut, up to where the run was gone into again."""
    return Bar(bar.name, "cut", bar.start_ms, end_ms) if bar.kind == "cut" else bar


def _start_ms(record: Record) -> int:
    if record["k"] == "step":
        return record["start"]
    return record["t"] - (record["gate_ms"] if record["k"] == "gave" else 0)


def _bars_of_boot(marks: Sequence[Record], steps: Sequence[Record], shift_ms: int) -> list[Bar]:
    bars: list[Bar] = []
    begun: Record | None = None
    light_ms = 0
    for record in marks:
        if record["k"] == "begin":
            begun = record
            continue
        if record["k"] == "dose":
            bars = [*bars[:-1], _measured(bars[-1], record)] if bars else bars
            continue
        begun = None
        light_ms = light_ms + record["light_ms"] if record["k"] == "gave" else 0
        bars.append(_bar(record, steps[record["step"] - 1], shift_ms, light_ms))
    if begun is not None:
        start_ms = begun["t"] + shift_ms
        bars.append(Bar(steps[begun["step"] - 1]["name"], "cut", start_ms, start_ms + 1000))
    return bars


def _bar(record: Record, step: Record, shift_ms: int, light_ms: int) -> Bar:
    start_ms = _start_ms(record) + shift_ms
    if record["k"] == "gave":
        # A light that goes on after a stop is told once, at its end.
        note = "" if record["how"] == "held" else f"{light_ms / 1000:.1f} s{_left(record)}"
        return Bar(step["name"], "light", start_ms, start_ms + record["gate_ms"], note=note)
    if record["how"] == "aside":
        return Bar(step["name"], "bath", start_ms, start_ms + step["time_ms"], note="beside")
    real_ms = 0 if record["how"] == "skipped" else record["real_ms"]
    return _timed(step, start_ms, real_ms)


def _measured(bar: Bar, record: Record) -> Bar:
    """A light's bar, once it is known how the light was measured; of one that goes on nothing is told."""
    if not bar.note or record["how"] != COUNTED:
        return bar
    return replace(bar, note=f"{bar.note} counted in {(bar.end_ms - bar.start_ms) / 1000:.1f} s")


def _left(record: Record) -> str:
    return f", {record['left_ms'] / 1000:.1f} s not given" if record["left_ms"] else ""


def _timed(step: Record, start_ms: int, real_ms: int) -> Bar:
    planned_ms = step.get("time_ms", step.get("most_ms", real_ms))
    over_ms = max(0, real_ms - planned_ms)
    lift_from_ms = planned_ms - step.get("lift_ms", 0)
    lift_ms = max(0, min(real_ms, planned_ms) - lift_from_ms) if step.get("lift_ms") else 0
    note = f"+{over_ms / 1000:.0f} s" if over_ms >= 1000 else ""
    return Bar(step["name"], step["kind"], start_ms, start_ms + real_ms, lift_ms, over_ms, note)
