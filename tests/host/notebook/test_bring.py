"""Bringing journals home: twice changes nothing, damage is said, dates are known or bounded."""

import sqlite3
import time
from dataclasses import replace
from pathlib import Path

import pytest
from tests.host.notebook.journals import BOOT, DATED, EVENING, PRINT, PRINT_PROGRAM, SHA, arm, torn, write

from footlight.notebook.book import notebook
from footlight.notebook.dates import When
from footlight.notebook.journal import bring, derive, programs
from footlight.notebook.sheets import by_number, listing

NOW = EVENING + 3600


def brought(book: sqlite3.Connection, lines, epoch: str = "e1", controller: str = "box-1", now_s: int = NOW):
    return bring.bring(book, bring.epoch_id(book, controller, epoch, now_s), lines, now_s)


def dump(book: sqlite3.Connection) -> list[str]:
    return list(book.iterdump())


def rows_of(book: sqlite3.Connection, *tables: str) -> list[list[tuple[object, ...]]]:
    return [[tuple(row) for row in book.execute(f"SELECT * FROM {table}")] for table in tables]


def only_when(book: sqlite3.Connection) -> When:
    (run,) = book.execute("SELECT from_unix_s, to_unix_s FROM runs").fetchall()
    return When(*run)


def test_twice_changes_nothing(book: sqlite3.Connection):
    first = brought(book, write(*PRINT))
    assert (first.new, first.last, first.runs, first.sheets) == (len(PRINT), len(PRINT), {1}, {41})
    before = dump(book)
    again = brought(book, write(*PRINT), now_s=NOW + 99)
    assert (again.new, again.last, again.differing) == (0, len(PRINT), [])
    assert dump(book) == before


@pytest.mark.parametrize("cut", range(1, len(PRINT)))
def test_in_two_parts_is_the_same_as_in_one(book: sqlite3.Connection, cut: int, tmp_path: Path):
    lines = write(*PRINT)
    brought(book, lines[:cut])
    assert bring.next_number(book, 1) == cut + 1
    brought(book, lines[cut:])
    with notebook(tmp_path / "whole.sqlite", writing=True) as whole:
        brought(whole, lines)
        tables = ("journal", "runs", "run_sheets", "sheets", "anchors")
        assert rows_of(book, *tables) == rows_of(whole, *tables)
    assert by_number.story(book, by_number.find(book, 41)).runs[0].ended == "whole"


def test_what_came_before_a_broken_link_stays(book: sqlite3.Connection):
    def breaking():
        yield from write(*PRINT)[:5]
        raise ConnectionError("unplugged")

    with pytest.raises(ConnectionError):
        brought(book, breaking())
    assert bring.next_number(book, 1) == 6


def test_the_raw_line_is_kept(book: sqlite3.Connection):
    lines = write(*PRINT)
    brought(book, [*lines[:-1], torn(lines[-1])])
    kept = [row["line"] for row in book.execute("SELECT line FROM journal ORDER BY number")]
    assert kept == [line.line for line in lines[:-1]] + [lines[-1].line[:20]]


def test_damage_and_difference_are_said(book: sqlite3.Connection):
    lines = write(*PRINT)
    done = brought(book, [*lines[:4], torn(lines[4]), *lines[5:]])
    assert done.damaged == [5]
    other = write(*PRINT[:6], (135_510, "focus", 9), *PRINT[7:])
    assert brought(book, other).differing == [5, 7]


def test_records_of_an_unknown_kind_are_kept_until_they_are_understood(book: sqlite3.Connection):
    lines = write(*PRINT)
    done = brought(book, [*lines[:4], replace(lines[4], record=None), *lines[5:]])
    assert (done.damaged, done.unknown) == ([], [5])
    assert by_number.story(book, by_number.find(book, 41)).runs[0].rows[0].how == "broken"
    derive.rebuild(book)
    assert by_number.story(book, by_number.find(book, 41)).runs[0].rows[0].how == "pedal"


def test_epochs_and_controllers_are_kept_apart(book: sqlite3.Connection):
    brought(book, write(*PRINT))
    brought(book, write(*PRINT), epoch="e2")
    assert listing.count(book) == 2
    assert by_number.find(book, 41)["epoch"] == "e2"
    brought(book, write(*PRINT), controller="box-2")
    with pytest.raises(by_number.NotebookError, match="box-1, box-2.; name one: controller"):
        by_number.find(book, 41)
    assert by_number.find(book, 41, "box-2")["controller_id"] == "box-2"


def test_the_date_follows_from_the_anchor_of_the_same_switching_on(book: sqlite3.Connection):
    brought(book, write(*PRINT))
    assert only_when(book) == When(EVENING + 8, EVENING + 8)


def test_an_anchor_that_comes_later_dates_what_came_before(book: sqlite3.Connection):
    brought(book, write(BOOT, arm(10_000, 1, 41)), now_s=NOW)
    assert only_when(book) == When(None, NOW)
    brought(book, write((70_000, "date", EVENING), first=3))
    assert only_when(book) == When(EVENING - 60, EVENING - 60)


def test_no_anchor_in_this_switching_on_gives_bounds(book: sqlite3.Connection):
    rows = [BOOT, DATED, BOOT, arm(10_000, 1, 41), BOOT, (5_000, "date", EVENING + 7200)]
    brought(book, write(*rows))
    assert only_when(book) == When(EVENING, EVENING + 7195)


def test_the_nearest_anchor_counts(book: sqlite3.Connection):
    # The controller's clock is a minute behind after ten hours.
    rows = [BOOT, DATED, arm(36_000_000, 1, 41), (36_002_000, "date", EVENING + 36_060)]
    brought(book, write(*rows))
    assert only_when(book) == When(EVENING + 36_058, EVENING + 36_058)


def test_after_a_damaged_record_no_date_is_pretended(book: sqlite3.Connection):
    lines = write(BOOT, DATED, BOOT, arm(10_000, 1, 41))
    brought(book, [*lines[:2], torn(lines[2]), lines[3]])
    assert only_when(book) == When(EVENING, NOW)


def test_a_false_clock_gives_no_bounds(book: sqlite3.Connection):
    rows = [BOOT, (0, "date", EVENING + 9999), BOOT, arm(10_000, 1, 41), BOOT, (0, "date", EVENING)]
    brought(book, write(*rows))
    assert only_when(book) == When(None, None)


def test_planned_against_given(book: sqlite3.Connection):
    brought(book, write(*PRINT))
    unknown = by_number.story(book, by_number.find(book, 41)).runs[0]
    bath, light, clearing = unknown.rows
    assert isinstance(bath, by_number.BathRow) and isinstance(light, by_number.LightRow)
    assert (bath.name, bath.planned_ms, bath.difference_ms) == ("step 1", None, None)
    assert (light.planned_ms, light.planned_from) == (8050, "journal")

    programs.store(book, programs.Sequence(SHA, "PENCIL", "reversal print", PRINT_PROGRAM, "", "8 s"), NOW)
    part = by_number.story(book, by_number.find(book, 41)).runs[0]
    bath, light, clearing = part.rows
    assert isinstance(bath, by_number.BathRow) and isinstance(light, by_number.LightRow)
    assert isinstance(clearing, by_number.BathRow)
    assert (bath.name, bath.planned_ms, bath.real_ms, bath.difference_ms) == (
        "first developer",
        120_000,
        123_500,
        3_500,
    )
    assert (light.name, light.planned_ms, light.planned_from, light.parts) == (
        "second exposure",
        8050,
        "sequence",
        [3050, 5100],
    )
    assert light.setup == {"stop": "F11", "height_mm": 620, "dead_ms": 50}
    assert (clearing.planned_ms, clearing.most_ms, clearing.difference_ms) == (30_000, 240_000, 0)
    assert (part.name, part.arithmetic) == ("reversal print", "8 s")


def test_storing_a_program_twice_changes_nothing(book: sqlite3.Connection):
    sequence = programs.Sequence(SHA, "PENCIL", "reversal print", PRINT_PROGRAM, "a", "b")
    programs.store(book, sequence, NOW)
    before = dump(book)
    programs.store(book, sequence, NOW + 1)
    assert dump(book) == before
    programs.note_sent(book, sequence, "box-1", 3, NOW)
    (sent,) = book.execute("SELECT sha256, controller_id, slot FROM sends").fetchall()
    assert tuple(sent) == (SHA, "box-1", 3)


def test_rebuilt_rows_are_the_same_and_keep_their_ids(book: sqlite3.Connection):
    brought(book, write(*PRINT))
    rows = [BOOT, arm(10_000, 2, 42), (11_000, "fault", 2, 1, 4)]
    brought(book, write(*rows, first=len(PRINT) + 1))
    before = rows_of(book, "runs", "sheets", "run_sheets", "faults")
    story = by_number.story(book, by_number.find(book, 41))
    book.execute("UPDATE runs SET title = 'WRONG', from_unix_s = 5")
    book.execute("DELETE FROM steps")
    derive.rebuild(book)
    assert rows_of(book, "runs", "sheets", "run_sheets", "faults") == before
    assert by_number.story(book, by_number.find(book, 41)) == story


def test_thirty_prints_come_in_within_a_second(book: sqlite3.Connection):
    rows: list[tuple[object, ...]] = [BOOT, DATED]
    for run in range(1, 31):
        rows.append(arm(1000 * run, run, run))
        for step in range(1, 15):
            rows.append((0, "begin", run, step, run))
            rows.append((0, "step", run, step, run, 0, 60_000, "pedal"))
        rows.append((0, "end", run, run, "whole"))
    lines = write(*rows)
    began_s = time.perf_counter()
    assert brought(book, lines).new == len(rows)
    assert time.perf_counter() - began_s < 1.0
    assert [listed.number for listed in listing.newest(book, 3)] == [30, 29, 28]
