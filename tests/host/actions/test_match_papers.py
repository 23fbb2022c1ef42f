"""Papers held against each other: strips of one light at one place, from what is known of the old one."""

import json
import math
import sqlite3
from pathlib import Path

import pytest

from footlight.actions.match_papers import match_papers
from footlight.actions.read_by_eye import Answers, read_by_eye
from footlight.actions.take_strip_doses import StripDoses, TypedDoses, take
from footlight.errors import InputError
from footlight.notebook.acts import act
from footlight.notebook.book import notebook
from footlight.notebook.sheets import readings
from footlight.notebook.stock import papers

NOW_S = 1_772_388_000


def kept(book: sqlite3.Connection, full_s: float, place: str, sheet_id: int) -> int:
    """A strip judged by eye whose black is full at `full_s` [s], known to half a stop either way."""
    middle = math.log2(full_s / 8)
    result = {"present_s": 8, "full_stops": [middle - 0.5, middle, middle + 0.5], "taken": {"place": place}}
    entry = readings.Entry("eye", json.dumps(result), sheet_id, setup="second")
    return readings.keep(book, entry, "a strip", b"", NOW_S)


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """Two batches; sheet 1 is of A, sheet 2 of B. A needs a stop more under 'second', two under 'other'."""
    file = tmp_path / "book.sqlite"
    with notebook(file, writing=True) as book:
        for name in ("A", "B"):
            papers.add(book, name, "invented paper", "8x10", 100, None, NOW_S)
        book.executemany("INSERT INTO sheets (id, number) VALUES (?, ?)", [(1, 1), (2, 2)])
        with act(book, "sheets of batches", NOW_S) as number:
            papers.put(book, number, [1], papers.find(book, "A"))
            papers.put(book, number, [2], papers.find(book, "B"))
        known = [papers.Finding("second", 1.0, "second"), papers.Finding("second", 2.0, "other")]
        papers.note_findings(book, papers.find(book, "A"), known, NOW_S)
    return file


def test_counted_from_what_is_known_of_the_old_one_under_that_light(path: Path):
    with notebook(path, writing=True) as book:
        old, new = kept(book, 8, "800 mm f/11", 1), kept(book, 16, "800 mm f/11", 2)
    match = match_papers(path, old, new)
    assert (match.batch, match.old_stops) == ("B", 1.0)
    assert match.difference.stops == pytest.approx(1.0)
    # Two independent half stops: √½ to either side.
    assert match.difference.high_stops - 1 == pytest.approx(math.sqrt(0.5))
    with notebook(path, writing=False) as book:
        assert [found.value for found in papers.findings(book, papers.find(book, "B"))] == [2.0]


def test_another_place_tells_nothing(path: Path):
    with notebook(path, writing=True) as book:
        old, new = kept(book, 8, "800 mm f/11", 1), kept(book, 16, "620 mm f/11", 2)
    with pytest.raises(InputError, match="lit at 800 mm f/11 .* and 620 mm f/11"):
        match_papers(path, old, new)


def test_typed_doses_need_the_dose_of_now(tmp_path: Path):
    with pytest.raises(InputError, match="give present, the dose that is given now"):
        take(tmp_path / "none.sqlite", None, TypedDoses((0.0, 4.0, 8.0, 16.0, 80.0)))


def test_the_anchor_is_no_step_to_be_judged():
    doses = StripDoses(8.0, (0.0, 4.0, 8.0, 16.0, 80.0))
    with pytest.raises(InputError, match="allowed is 1 to 3"):
        read_by_eye(Answers(4, 3, True), doses)
    result = read_by_eye(Answers(2, 3, True), doses).result
    # Full between 4 s and 8 s: half a step below the present dose.
    assert result["full_stops"][1] == pytest.approx(-0.5)
