"""Notebooks of earlier versions with real content come through: nothing lost, what was undone stays so."""

import json
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest
from tests.host.notebook.journals import EVENING, PRINT, PRINT_PROGRAM, SHA, Line, write

from footlight.notebook import acts, migrate
from footlight.notebook.book import notebook
from footlight.notebook.exchange import as_dict
from footlight.notebook.journal import derive
from footlight.notebook.reinstate import reinstate
from footlight.notebook.restore import read_json, restore
from footlight.notebook.sheets import by_number, listing, remarks
from footlight.notebook.stock import lenses

# (kind, text, undone) as version 2 kept remarks one by one.
REMARKS = (
    ("verdict", "usable", False),
    ("defect", "mottle", False),
    ("note", "bath was tired", True),
    ("note", "upper left", False),
    ("verdict", "good", True),
)


def filled(path: Path, version: int) -> None:
    """A notebook of an earlier version with a print in it, written with that version's own tables."""
    connection = sqlite3.connect(path, isolation_level=None)
    migrate.migrate(connection, version)
    connection.execute("INSERT INTO controllers VALUES ('box-1', ?)", (EVENING,))
    connection.execute("INSERT INTO epochs VALUES (1, 'box-1', 'e1', ?, 12)", (EVENING,))
    connection.execute(
        "INSERT INTO programs VALUES (?, 'PENCIL', 'reversal print', ?, '# source', '8 s', ?)",
        (SHA, PRINT_PROGRAM, EVENING),
    )
    _journal(connection, write(*PRINT))
    connection.execute("INSERT INTO sheets (id, epoch_id, number) VALUES (7, 1, 41), (8, 1, 42)")
    connection.execute(
        "INSERT INTO runs VALUES (3, 1, 1, 3, 1, 10000, 1, 'PENCIL', ?, 1, 'whole', ?, ?)",
        (SHA[:16], EVENING + 8, EVENING + 8),
    )
    connection.execute("INSERT INTO run_sheets VALUES (3, 7)")
    connection.execute("INSERT INTO steps VALUES (1, 3, 7, 1, 4, 123500, 'pedal')")
    connection.execute("INSERT INTO lights VALUES (1, 3, 7, 2, 6, 8050, 8150, 8050, 8050, 0, 'whole')")
    connection.execute("INSERT INTO exposures VALUES (1, 7, 3050, 3000, 'held'), (1, 9, 5100, 5050, 'whole')")
    if version >= 2:
        for row_id, (kind, text, undone) in enumerate(REMARKS, 1):
            connection.execute(
                "INSERT INTO remarks VALUES (?, 7, ?, ?, ?, ?)",
                (row_id, kind, text, EVENING + row_id, EVENING + 100 if undone else None),
            )
    connection.close()


def _journal(connection: sqlite3.Connection, lines: list[Line]) -> None:
    for line in lines:
        run = line.record.get("run") if line.record else None
        connection.execute(
            "INSERT INTO journal VALUES (1, ?, ?, 1, 1, ?, ?)", (line.number, line.line, run, EVENING)
        )


@pytest.mark.parametrize("version", [1, 2])
def test_the_print_comes_through_and_can_be_read_anew(path: Path, version: int):
    filled(path, version)
    with notebook(path, writing=True) as book:
        before = by_number.story(book, by_number.find(book, 41))
        assert before.runs[0].name == "reversal print" and before.runs[0].ended == "whole"
        assert [listed.number for listed in listing.newest(book, 5)] == [42, 41]
        assert book.execute("PRAGMA foreign_key_check").fetchall() == []
        assert book.execute("PRAGMA integrity_check").fetchone()[0] == "ok"
        derive.rebuild(book)
        again = by_number.story(book, by_number.find(book, 41))
    assert again.sheet_id == before.sheet_id == 7
    # The record of the step judged by eye was left out of the derived rows above; the light is the same.
    assert [row.first_number for row in again.runs[0].rows] == [4, 6, 10]
    assert again.runs[0].rows[1] == before.runs[0].rows[1]


def test_every_remark_of_version_2_comes_through(path: Path):
    filled(path, 2)
    with notebook(path, writing=True) as book:
        told = [(one.kind, one.text) for one in remarks.of_sheet(book, 7)]
        assert told == [("verdict", "usable"), ("defect", "mottle"), ("note", "upper left")]
        rows = book.execute("SELECT kind, text FROM remarks ORDER BY id").fetchall()
        assert [tuple(row) for row in rows] == [(kind, text) for kind, text, _ in REMARKS]
        history = acts.recent(book, 9)
        assert [act.undone_unix_s is not None for act in reversed(history)] == [one[2] for one in REMARKS]
        assert history[-1].said == "sheet 41, verdict: usable"
        taken_back = [acts.Turn("taken back", EVENING + 100)]
        assert [list(act.turns) for act in reversed(history)] == [
            taken_back if one[2] else [] for one in REMARKS
        ]
        assert [act.done_unix_s for act in reversed(history)] == [EVENING + n for n in range(1, 6)]


def test_the_search_works_after_it_and_undo_goes_on(path: Path):
    filled(path, 2)
    with notebook(path, writing=True) as book:
        assert [one.text for one in remarks.search(book, "mott", 9)] == ["mottle"]
        assert [one.kind for one in remarks.search(book, "reversal", 9)] == ["sequence"]
        assert remarks.search(book, "tired", 9) == []
        assert acts.undo(book, EVENING + 200).said == "sheet 41, note: upper left"
        assert [one.text for one in remarks.search(book, "upper", 9)] == []
        with acts.act(book, "more", EVENING + 300) as act_id:
            assert act_id == 6
            remarks.put(book, act_id, 7, [("note", "dried flat")])
        assert [one.sheet for one in remarks.search(book, "flat", 9)] == [41]


def test_what_was_taken_back_in_version_3_can_be_reinstated(path: Path):
    with closing(sqlite3.connect(path, isolation_level=None)) as connection:
        migrate.migrate(connection, 3)
        # Two undos within a second: the later act was taken back first.
        undone = [(1, EVENING + 9), (2, None), (3, EVENING + 8), (4, EVENING + 8)]
        for number, undone_s in undone:
            connection.execute(
                "INSERT INTO acts VALUES (?, ?, ?, ?)",
                (number, f"lens {number}", EVENING + number, undone_s),
            )
            connection.execute(
                "INSERT INTO lenses (act_id, name, focal_mm) VALUES (?, ?, 90)", (number, f"lens {number}")
            )
    with notebook(path, writing=True) as book:
        assert [one.name for one in lenses.every(book)] == ["lens 2"]
        assert [reinstate(book, EVENING + 20).id for _ in range(3)] == [1, 3, 4]
        assert len(lenses.every(book)) == 4
        assert [turn.at_unix_s for turn in acts.recent(book, 9)[-1].turns] == [EVENING + 9, EVENING + 20]
    assert path.with_name("notebook.version-3.sqlite").is_file()


@pytest.mark.parametrize("version", [1, 2])
def test_a_copy_of_the_old_version_is_left_beside_it(path: Path, version: int):
    filled(path, version)
    before = path.read_bytes()
    with notebook(path, writing=False):
        pass
    copy = sqlite3.connect(path.with_name(f"notebook.version-{version}.sqlite"))
    old = sqlite3.connect(":memory:")
    old.deserialize(before)
    assert list(copy.iterdump()) == list(old.iterdump())
    copy.close()


@pytest.mark.parametrize("version", [1, 2])
def test_an_export_of_that_version_is_restored(path: Path, tmp_path: Path, version: int):
    filled(path, version)
    connection = sqlite3.connect(path, isolation_level=None)
    connection.row_factory = sqlite3.Row
    exported = as_dict(connection)
    connection.close()
    assert exported["version"] == version
    (tmp_path / "old.json").write_text(json.dumps(exported), encoding="utf-8")
    new = tmp_path / "new.sqlite"
    restore(read_json(tmp_path / "old.json"), new)
    with notebook(path, writing=False) as one, notebook(new, writing=False) as other:
        # Migrated in place or out of the export: the same rows, and the same words to be found.
        assert as_dict(other) == as_dict(one)
        words = "SELECT text, kind, about, sheet_id, act_id FROM words ORDER BY rowid"
        assert [tuple(row) for row in other.execute(words)] == [tuple(row) for row in one.execute(words)]
