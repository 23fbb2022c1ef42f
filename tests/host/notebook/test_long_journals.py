"""A long journal costs as much a record as a short one: counted in SQLite's steps, not in seconds."""

import sqlite3
from pathlib import Path

import pytest
from tests.host.notebook.journals import EVENING, SHORT_SHA, Line, write

from footlight.notebook.book import notebook
from footlight.notebook.journal import bring

_STEP = 50


def journal(records: int, *, dated: bool) -> list[Line]:
    """Runs of six records each in one switching-on; every fifth begins with a date where `dated`."""
    rows: list[tuple[object, ...]] = [(0, "boot", "power", 0, 1, 0)]
    for run in range(1, records):
        t_ms = run * 100_000
        rows += [(t_ms, "date", EVENING + run * 100)] if dated and run % 5 == 0 else []
        rows += [
            (t_ms + 1, "arm", run, 1, SHORT_SHA, "PRINT", run, 1),
            (t_ms + 2, "begin", run, 1, run),
            (t_ms + 3, "step", run, 1, run, t_ms + 2, 1000, "time"),
            (t_ms + 4, "intent", run, 2, run, 1000, 1100, SHORT_SHA),
            (t_ms + 5, "gave", run, 2, run, 1100, 1000, 0, "whole"),
            (t_ms + 6, "end", run, run, "whole"),
        ]
    return write(*rows[:records])


def cost(connection: sqlite3.Connection, lines: list[Line]) -> int:
    """How many steps it takes to bring them."""
    steps = 0

    def count() -> None:
        nonlocal steps
        steps += 1

    epoch = bring.epoch_id(connection, "box", "e1", EVENING)
    connection.set_progress_handler(count, _STEP)
    assert bring.bring(connection, epoch, lines, EVENING).new == len(lines)
    connection.set_progress_handler(None, 0)
    return steps


@pytest.mark.parametrize("dated", [True, False])
def test_twice_the_records_cost_twice_as_much(tmp_path: Path, dated: bool):
    lines = journal(5000, dated=dated)
    with notebook(tmp_path / "one.sqlite", writing=True) as connection:
        first, second = cost(connection, lines[:2000]), cost(connection, lines[2000:4000])
        more = cost(connection, lines[4000:4500])
    with notebook(tmp_path / "two.sqlite", writing=True) as connection:
        alone = cost(connection, lines[:500])
    assert first + second <= 2.2 * first
    assert more <= 1.5 * alone
