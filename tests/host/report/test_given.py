"""A counted light on the time line: in how long its dose was there."""

from typing import Any

from footlight.report.given import given_bars

LIGHT = {"kind": "light", "name": "second", "time_ms": 10_000}
GAVE = {"k": "gave", "t": 20_000, "sheet": 7, "step": 1, "gate_ms": 10_800, "light_ms": 10_000, "left_ms": 0}
DOSE = {"k": "dose", "t": 20_000, "sheet": 7, "step": 1, "dose_ms": 10_000, "how": "counted"}


def notes(*records: dict[str, Any]) -> list[str]:
    return [bar.note for bar in given_bars([list(records)], [LIGHT], 7)]


def test_what_was_counted_is_said():
    assert notes(GAVE | {"how": "whole"}, DOSE) == ["10.0 s counted in 10.8 s"]
    assert notes(GAVE | {"how": "whole"}, DOSE | {"how": "stuck"}) == ["10.0 s"]
    assert notes(GAVE | {"how": "whole"}) == ["10.0 s"]
    assert notes(DOSE, GAVE | {"how": "whole"}) == ["10.0 s"], "of a light before the first that is known"
