"""The notebook opened with nothing but SQLite: its comments say what it holds, its views answer."""

import sqlite3
from collections.abc import Iterator
from pathlib import Path

import pytest
from tests.host.cli.day import Day, day, dry

__all__ = ["day"]


@pytest.fixture
def plain(day: Day, monkeypatch: pytest.MonkeyPatch) -> Iterator[sqlite3.Connection]:
    """Opened as a stranger would."""
    monkeypatch.setenv("TZ", "UTC")
    day.home(*dry(42, 43, run=2))
    day.asked("paper add A 'baryta, glossy' --size 8x10 --sheets 25")
    day.asked("paper spoiled A 3")
    day.asked("paper assign A 41 42")
    day.asked("write 41 --verdict usable --defect mottle --defect stain upper left")
    day.asked("write 41 --verdict lost")
    day.asked("undo")
    day.asked("expose 60 --planned '4 s' --subject 'two chairs'")
    connection = sqlite3.connect(f"{Path(day.path).as_uri()}?mode=ro", uri=True)
    yield connection
    connection.close()


def test_prints(plain: sqlite3.Connection):
    rows = plain.execute(
        "SELECT sheet, controller, sequences, paper, verdict, defects, notes FROM prints ORDER BY sheet"
    ).fetchall()
    assert rows == [
        (41, "box-1", "PENCIL", "A, baryta, glossy", "usable", "mottle, stain", "upper left"),
        (42, "box-1", "PENCIL", "A, baryta, glossy", None, None, None),
        (43, "box-1", "PENCIL", None, None, None, None),
        # In the camera, and of the paper in use; no journal knows it.
        (60, None, None, "A, baryta, glossy", None, None, None),
    ]
    assert plain.execute("SELECT camera FROM prints WHERE sheet = 60").fetchone() == ("two chairs",)


def test_light_given(plain: sqlite3.Connection):
    row = plain.execute(
        "SELECT planned_s, given_least_s, given_most_s, lamp_on_s, how FROM light_given WHERE sheet = 41"
    ).fetchone()
    assert row == (8.05, 8.05, 8.05, 8.15, "whole")


def test_paper_left(plain: sqlite3.Connection):
    # 25 bought; 41, 42 and 60 used, three spoiled.
    assert plain.execute("SELECT * FROM paper_left").fetchall() == [("A", "baryta, glossy", "8x10", 25, 3, 3)]


def test_every_table_tells_what_it_is_for(plain: sqlite3.Connection):
    tables = plain.execute(
        "SELECT name, sql FROM sqlite_master WHERE type = 'table' AND sql LIKE 'CREATE TABLE%'"
        " AND name NOT LIKE 'words%' AND name NOT LIKE 'sqlite%'"
    ).fetchall()
    assert len(tables) > 20
    for name, sql in tables:
        assert "--" in sql or name == "sends", name


def test_what_belongs_to_acts_is_read_with_one_join(plain: sqlite3.Connection):
    verdicts = plain.execute(
        "SELECT text FROM remarks JOIN acts ON acts.id = act_id AND undone_unix_s IS NULL"
        " WHERE kind = 'verdict'"
    ).fetchall()
    assert verdicts == [("usable",)]
