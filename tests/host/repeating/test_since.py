"""Facts about what has changed: which firmware made a print, and which the controller has now."""

import sqlite3

import pytest
from tests.host.notebook.journals import EVENING, arm, write

from footlight.notebook.journal import bring
from footlight.notebook.stock import baths, since


@pytest.fixture
def book(tmp_path):
    from footlight.notebook.book import notebook

    with notebook(tmp_path / "notebook.sqlite", writing=True) as connection:
        yield connection


def boot(build: int) -> tuple[object, ...]:
    return (0, "boot", "power", 0, build, 0)


def bring_home(
    book: sqlite3.Connection, *rows: tuple[object, ...], epoch: str = "e1", first: int = 1
) -> None:
    number = bring.epoch_id(book, "box-1", epoch, EVENING)
    bring.bring(book, number, write(*rows), EVENING)


def test_the_firmware_then_and_now(book: sqlite3.Connection):
    bring_home(book, boot(3), arm(10, 1, 41), boot(4), arm(10, 2, 42))
    assert [since.build_of_run(book, "box-1", "e1", run) for run in (1, 2)] == [3, 4]
    assert since.build_now(book, "box-1") == 4
    bring_home(book, boot(5), epoch="e2")
    assert since.build_now(book, "box-1") == 5
    assert since.build_now(book, "box-2") is None and since.build_of_run(book, "box-1", "e2", 1) is None


def test_no_search_through_the_whole_journal(book: sqlite3.Connection):
    plans: list[str] = []
    book.set_trace_callback(plans.append)
    since.build_now(book, "box-1")
    book.set_trace_callback(None)
    (asked,) = plans
    plan = " ".join(row["detail"] for row in book.execute(f"EXPLAIN QUERY PLAN {asked}"))
    assert "SCAN" not in plan and "TEMP B-TREE" not in plan, plan


def test_which_bath_stood_there(book: sqlite3.Connection):
    for at_s in (EVENING, EVENING + 7200):
        baths.mix(book, [baths.Mixed("bleach", "", "", "bleach", 700, at_s)], EVENING + 9000)
    known = baths.every(book)
    first = since.bath_at(known, "Bleach", EVENING + 3600)
    assert first is not None and first.age_h(EVENING + 3600) == 1
    second = since.bath_at(known, "bleach", EVENING + 7200)
    assert second is not None and second.id != first.id
    assert (
        since.bath_at(known, "bleach", EVENING - 1) is None and since.bath_at(known, "fixer", EVENING) is None
    )
    baths.note(book, [(second, baths.Finding("emptied", 1, "", EVENING + 8000))], EVENING + 9000)
    assert since.bath_at(baths.every(book), "bleach", EVENING + 8500) is None
