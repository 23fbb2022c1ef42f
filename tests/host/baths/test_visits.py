"""Visits: worked by hand on the shipped print, and never lost or doubled however the journal comes home."""

import sqlite3
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.host.baths.darkroom import EVENING, HOUR, Darkroom, compiled

from footlight.baths.condition import Condition, shelf, unknown_sheets
from footlight.baths.planned import merged, of_sequence, of_source
from footlight.baths.visits import seen
from footlight.notebook import acts
from footlight.notebook.book import notebook
from footlight.notebook.stock import baths
from footlight.notebook.stock.baths import Finding, Mixed

TRAYS = (("developer", "developer"), ("bleach", "bleach"), ("clear", "clearing"), ("fixer", "fixer"))


@contextmanager
def a_book() -> Iterator[sqlite3.Connection]:
    """A notebook that goes with its folder: one for each example of a property."""
    with tempfile.TemporaryDirectory() as folder, notebook(Path(folder) / "n.sqlite", writing=True) as opened:
        yield opened


def mixed(
    book: sqlite3.Connection, at_s: int = EVENING - HOUR, names=TRAYS, volume_ml: float = 1000.0
) -> None:
    baths.mix(book, [Mixed(name, "", "", kind, volume_ml, at_s) for name, kind in names], EVENING + 10 * HOUR)


def stands(book: sqlite3.Connection, name: str, at_s: int = EVENING + HOUR) -> Condition:
    found = shelf(book, at_s, [name]).named(name)
    assert found is not None
    return found


def counts(book: sqlite3.Connection) -> dict[str, int]:
    """Visits by name of bath, of all baths that there ever were."""
    every = baths.every(book)
    found = seen(book, every)
    return {bath.name: sum(visit.bath_id == bath.id for visit in found) for bath in every}


def test_steps_in_one_tray_are_one_visit():
    walked = [
        (1, "dev"),
        (2, "water"),
        (3, ""),
        (4, "bleach"),
        (5, "dev"),
        (6, "fixer"),
        (7, ""),
        (8, "fixer"),
    ]
    assert merged(walked) == [(1, "dev"), (2, "water"), (4, "bleach"), (5, "dev"), (6, "fixer")]


def test_a_sequence_is_read_alike_from_its_file_and_from_what_was_sent():
    one = compiled()
    assert of_source(one.sequence.path.read_text("utf-8")) == of_sequence(one.sequence)
    assert of_source("no [ TOML") is None and of_source('title = "PRINT"') is None


def test_a_print_by_hand(book: sqlite3.Connection, darkroom: Darkroom):
    # Shipped print, 8x10 = 1 sheet: developer twice, bleach, clear and fixer once (both halves of the fixing
    # are one visit); the rinses are filled anew for each sheet. First step of each: 1 and 8, 3, 5, 10.
    mixed(book)
    darkroom.carry_out(darkroom.know(compiled()), 41, EVENING, judged_ms=150_000)
    assert counts(book) == {"developer": 2, "bleach": 1, "clear": 1, "fixer": 1}
    developer = stands(book, "developer")
    assert [(visit.sheet, visit.step, visit.area_8x10) for visit in developer.visits] == [
        (41, 1, 1.0),
        (41, 8, 1.0),
    ]
    assert (developer.used_8x10, developer.sheets, developer.unsure) == (2.0, 1, 0)
    # 2:00 developer + 0:30 rinse + 2:30 bleach + 1:00 + 0:45 + 0:45 + a light of 9.99 s and 60 ms dead time.
    second_s = EVENING + 120 + 30 + 150 + 60 + 45 + 45 + 10.05
    assert [visit.unix_s for visit in developer.visits] == [EVENING, pytest.approx(second_s, abs=1)]
    assert developer.age_h == pytest.approx(2.0)
    # 15 to 50 sheets a litre, of which two are used.
    assert developer.left is not None
    assert (developer.left.least_sheets, developer.left.most_sheets) == (13, 48)
    assert stands(book, "bleach").visits[0].cleared_s == 150.0


def test_a_small_strip_counts_by_its_area(book: sqlite3.Connection, darkroom: Darkroom, tmp_path):
    # 4x5 is a quarter of 8x10 (ISO sheet sizes in inches, exact arithmetic).
    for name in ("reversal-print.toml", "light-setups.toml"):
        text = compiled().sequence.path.with_name(name).read_text("utf-8")
        (tmp_path / name).write_text(text.replace('sheet = "8x10"', 'sheet = "4x5"'), encoding="utf-8")
    mixed(book)
    darkroom.carry_out(darkroom.know(compiled(tmp_path / "reversal-print.toml")), 1, EVENING)
    assert stands(book, "developer").used_8x10 == pytest.approx(0.5)
    assert stands(book, "fixer").used_8x10 == pytest.approx(0.25)


def test_a_run_cut_off_counts_what_was_begun(book: sqlite3.Connection, darkroom: Darkroom):
    mixed(book)
    darkroom.carry_out(darkroom.know(compiled()), 1, EVENING, upto=8)
    assert counts(book) == {"developer": 2, "bleach": 1, "clear": 1, "fixer": 0}


def test_a_bath_counts_from_when_it_was_mixed_until_it_was_replaced_or_emptied(
    book: sqlite3.Connection, darkroom: Darkroom
):
    one = darkroom.know(compiled())
    mixed(book, EVENING - HOUR)
    mixed(book, EVENING + HOUR, [("bleach", "bleach")])
    for sheet, hours in ((1, -2), (2, 0), (3, 2), (4, 4)):
        darkroom.carry_out(one, sheet, EVENING + hours * HOUR)
    emptied = Finding("emptied", 1.0, at_unix_s=EVENING + 3 * HOUR)
    baths.note(book, [(baths.current(book, "bleach"), emptied)], EVENING + 10 * HOUR)
    first, second = baths.every(book, "bleach")
    by_bath = {bath.id: [] for bath in (first, second)}
    for visit in seen(book, [first, second]):
        by_bath[visit.bath_id].append(visit.sheet)
    assert by_bath == {first.id: [2], second.id: [3]}
    assert first.ended_unix_s == EVENING + HOUR and second.ended_unix_s == EVENING + 3 * HOUR
    assert shelf(book, EVENING + 10 * HOUR, ["bleach"]).named("bleach") is None


def test_mixing_within_a_run_parts_its_visits(book: sqlite3.Connection, darkroom: Darkroom):
    mixed(book)
    mixed(book, EVENING + 300, [("developer", "developer")])
    darkroom.carry_out(darkroom.know(compiled()), 1, EVENING)
    first, second = baths.every(book, "developer")
    found = seen(book, [first, second])
    assert [(visit.bath_id, visit.step) for visit in found] == [(first.id, 1), (second.id, 8)]


def test_a_run_without_a_date_counts_against_the_newest_that_may_have_stood_there(
    book: sqlite3.Connection, darkroom: Darkroom
):
    mixed(book, EVENING - 3 * HOUR)
    one = darkroom.know(compiled())
    darkroom.carry_out(one, 1, EVENING - HOUR)
    mixed(book, EVENING, [("bleach", "bleach")])
    darkroom.carry_out(one, 2, EVENING, dated=False)  # brought home two hours later: any time since sheet 1
    found = stands(book, "bleach")
    assert [(visit.sheet, visit.sure) for visit in found.visits] == [(2, False)]
    assert found.unsure == 1
    # The fixer is the same all that time: its visit is certain.
    assert [visit.sure for visit in stands(book, "fixer").visits] == [True, True]


def test_a_sequence_that_was_not_sent_from_here_is_said(book: sqlite3.Connection, darkroom: Darkroom):
    mixed(book)
    darkroom.carry_out(compiled(), 1, EVENING)
    assert unknown_sheets(book, shelf(book, EVENING)) == 1
    assert counts(book) == dict.fromkeys(("developer", "bleach", "clear", "fixer"), 0)


def test_hours_in_a_bottle_do_not_count(book: sqlite3.Connection):
    mixed(book, EVENING, [("fixer", "fixer")])
    for kind, hours in (("bottled", 2), ("poured", 7)):
        found = Finding(kind, 1.0, at_unix_s=EVENING + hours * HOUR)
        baths.note(book, [(baths.current(book, "fixer"), found)], EVENING + 8 * HOUR)
    bath = baths.current(book, "fixer")
    assert [bath.age_h(EVENING + hours * HOUR) for hours in (1, 2, 5, 7, 8)] == [1, 2, 2, 2, 3]


def test_topping_up_counts_as_bath(book: sqlite3.Connection):
    mixed(book, EVENING, [("bleach", "bleach")])
    topped = Finding("topped", 500.0, at_unix_s=EVENING)
    baths.note(book, [(baths.current(book, "bleach"), topped)], EVENING)
    # 4 to 15 a litre, 1.5 L.
    left = stands(book, "bleach", EVENING).left
    assert left is not None and (left.least_sheets, left.most_sheets) == (6.0, 22.5)


def test_undoing_the_mixing_brings_the_bath_before_back(book: sqlite3.Connection, darkroom: Darkroom):
    mixed(book)
    darkroom.carry_out(darkroom.know(compiled()), 1, EVENING)
    before = shelf(book, EVENING + HOUR)
    mixed(book, EVENING - 60)
    assert stands(book, "bleach").bath.id != before.named("bleach").bath.id  # type: ignore[union-attr]
    acts.undo(book, EVENING + HOUR)
    assert shelf(book, EVENING + HOUR) == before


PIECES = st.lists(st.tuples(st.integers(0, 60), st.integers(0, 60)), min_size=1, max_size=6)


@settings(max_examples=10, deadline=None)
@given(pieces=PIECES)
def test_nothing_is_lost_or_doubled_by_importing_again(pieces: list[tuple[int, int]]):
    with a_book() as connection:
        room = Darkroom(connection)
        mixed(connection)
        one = room.know(compiled())
        for sheet in (1, 2):
            room.carry_out(one, sheet, EVENING + sheet * 1800)
        whole = shelf(connection, EVENING + HOUR)
        assert counts(connection) == {"developer": 4, "bleach": 2, "clear": 2, "fixer": 2}
        for first, length in pieces:
            room.home(room.lines[first : first + length], EVENING + 5 * HOUR)
            assert shelf(connection, EVENING + HOUR) == whole


@settings(max_examples=10, deadline=None)
@given(cuts=st.lists(st.integers(1, 70), max_size=4))
def test_pieces_come_to_the_same_as_the_whole(cuts: list[int]):
    with a_book() as at_once, a_book() as in_pieces:
        told = []
        for connection in (at_once, in_pieces):
            room = Darkroom(connection)
            mixed(connection)
            one = room.know(compiled())
            if connection is in_pieces:
                room.home = lambda lines, now_s: None  # type: ignore[method-assign]
            for sheet in (1, 2):
                room.carry_out(one, sheet, EVENING + sheet * 1800)
            told.append(room)
        pieces = Darkroom(in_pieces, lines=told[1].lines)
        edges = [0, *sorted({cut for cut in cuts if cut < len(pieces.lines)}), len(pieces.lines)]
        for first, last in zip(edges, edges[1:], strict=False):
            pieces.home(pieces.lines[first:last], EVENING + 5 * HOUR)
        assert [_plain(one) for one in shelf(in_pieces, EVENING + HOUR).conditions] == [
            _plain(one) for one in shelf(at_once, EVENING + HOUR).conditions
        ]


def _plain(one: Condition) -> object:
    return one.bath.name, [replace(visit, run_id=0, sheet_id=0) for visit in one.visits]
