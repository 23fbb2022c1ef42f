"""What a killed command leaves is never put into another file; what is told to be whole was looked at."""

import json
import shutil
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest
from click.testing import CliRunner
from tests.host.notebook import disks
from tests.host.notebook.journals import EVENING, PRINT, write

from footlight.cli.main import group
from footlight.notebook import leftovers
from footlight.notebook.book import notebook
from footlight.notebook.errors import NotebookError
from footlight.notebook.journal import bring


@pytest.fixture
def book(tmp_path: Path) -> Path:
    """A notebook with a few entries."""
    path = tmp_path / "notebook.sqlite"
    with notebook(path, writing=True) as connection:
        bring.bring(connection, bring.epoch_id(connection, "box-1", "e1", EVENING), write(*PRINT), EVENING)
    typed(path, "write", 41, "even")
    return path


def typed(book: Path, *words: object) -> str:
    """A command that must do."""
    result = CliRunner().invoke(group, [*map(str, words), "--notebook", str(book)])
    assert result.exit_code == 0, result.exception
    return result.output


def notes(book: Path) -> list[str]:
    with notebook(book, writing=False) as connection:
        return [row["text"] for row in connection.execute("SELECT text FROM remarks ORDER BY id")]


def hot_journals(book: Path, folder: Path) -> list[Path]:
    """Folders that a write left which was killed at each of its durable writes: file and journal together."""
    count = disks.durable_writes(_copied(book, folder / "counted"), "write", "41", "a new note")
    assert count >= 3
    left = []
    for stop_at in range(1, count + 1):
        copy = _copied(book, folder / f"stopped-{stop_at}")
        assert disks.footlight(copy, "write", "41", "a new note", stop_at=stop_at)[0] == -9
        left.append(copy)
    return left


def has_pages(copy: Path) -> bool:
    """Does a journal lie beside it that SQLite would put back?"""
    journal = copy.with_name(f"{copy.name}-journal")
    return journal.exists() and any(leftovers._pages(journal))


def _copied(book: Path, folder: Path) -> Path:
    folder.mkdir()
    return Path(shutil.copy(book, folder / book.name))


def test_a_command_that_was_killed_anywhere_is_finished_or_undone(book: Path, tmp_path: Path):
    for copy in hot_journals(book, tmp_path):
        assert disks.footlight(copy, "sheets")[0] == 0
        assert notes(copy) in (["even"], ["even", "a new note"])
        assert disks.footlight(copy, "check")[0] == 0
        assert not has_pages(copy)


def test_its_journal_is_never_put_into_a_back_up_that_was_copied_there(book: Path, tmp_path: Path):
    backup = tmp_path / "backup.sqlite"
    typed(book, "backup", backup)
    for number in range(14):
        typed(book, "write", 41, f"note {number}")
    met = 0
    for copy in hot_journals(book, tmp_path):
        if not has_pages(copy):
            continue
        met += 1
        shutil.copy(backup, copy)
        code, said = disks.footlight(copy, "sheets")
        assert code == 7 and "put aside" in said and said.count("\n") == 1
        assert notes(copy) == ["even"]
        assert disks.footlight(copy, "check")[0] == 0
    assert met >= 2


def test_a_restore_beside_leftovers_is_whole(book: Path, tmp_path: Path):
    out = tmp_path / "out.json"
    typed(book, "export", out)
    for number in range(14):
        typed(book, "write", 41, f"note {number}")
    for copy in hot_journals(book, tmp_path):
        copy.rename(copy.with_name("moved-aside.sqlite"))
        code, said = disks.footlight(copy, "restore", str(out))
        assert code == 0, said
        assert notes(copy) == ["even"]
        assert disks.footlight(copy, "check")[0] == 0


def test_a_write_ahead_file_of_another_is_not_read(book: Path, tmp_path: Path):
    other = _copied(book, tmp_path / "other")
    with closing(sqlite3.connect(other)) as connection:
        connection.execute("PRAGMA journal_mode = WAL")
        connection.execute("UPDATE remarks SET text = 'of another'")
        connection.commit()
        shutil.copy(f"{other}-wal", f"{book}-wal")
        # A general tool may have made it its own mode: then the file is what it says.
        assert leftovers._belongs(Path(f"{other}-wal"), other)
    with pytest.raises(NotebookError, match="put aside"):
        notes(book)
    assert notes(book) == ["even"]


def test_a_back_up_over_leftovers_of_its_name(book: Path, tmp_path: Path):
    target = tmp_path / "copy.sqlite"
    left = next(copy for copy in hot_journals(book, tmp_path) if has_pages(copy))
    shutil.copy(f"{left}-journal", f"{target}-journal")
    typed(book, "backup", target)
    assert notes(target) == ["even"]


def test_another_program_at_work_is_left_alone(book: Path, tmp_path: Path):
    # Its journal waits beside the file, and is neither strange nor in the way.
    with closing(sqlite3.connect(book, isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        other.execute("UPDATE remarks SET text = 'changed'")
        code, said = disks.footlight(book, "sheets")
        assert code == 0, said
        other.execute("COMMIT")
    assert notes(book) == ["changed"]


@pytest.mark.parametrize("place", [0.1, 0.3, 0.5, 0.7, 0.9])
def test_bytes_that_turned_are_told_in_a_line(book: Path, place: float):
    data = bytearray(book.read_bytes())
    start = 100 + int(place * (len(data) - 300))
    data[start : start + 100] = bytes(byte ^ 0xFF for byte in data[start : start + 100])
    book.write_bytes(data)
    for command in ("check", "sheets", "history", "search even"):
        code, said = disks.footlight(book, *command.split())
        assert code in (0, 7), said
        assert "Traceback" not in said
    assert disks.footlight(book, "check")[0] == 7 or _is_free(book, start)


def _is_free(book: Path, start: int) -> bool:
    """Did the bytes lie in a page, or in a part of one, that holds nothing?"""
    # No check sum covers what no row uses.
    with closing(sqlite3.connect(book)) as connection:
        return connection.execute("PRAGMA integrity_check").fetchone()[0] == "ok"


def test_a_letter_that_is_none_is_told(book: Path):
    data = book.read_bytes()
    assert b"even" in data
    book.write_bytes(data.replace(b"even", b"\xff\xfeen"))
    code, said = disks.footlight(book, "sheet", "41")
    assert code == 7 and "is damaged" in said and said.count("\n") == 1


def test_what_is_spoilt_is_told_by_check_backup_and_restore(book: Path, tmp_path: Path):
    with closing(sqlite3.connect(book)) as connection:
        columns = "sha256, title, name, program, source, arithmetic, stored_unix_s"
        row = ("cd" * 32, "P", "p", "{}", "", "", EVENING)
        connection.execute(f"INSERT INTO programs ({columns}) VALUES (?, ?, ?, ?, ?, ?, ?)", row)
        connection.commit()
    code, said = disks.footlight(book, "check")
    assert code == 7 and "program cdcdcdcd: its hash does not fit" in said
    code, said = disks.footlight(book, "backup", str(tmp_path / "copy.sqlite"))
    assert code == 7 and "cdcdcdcd" in said and (tmp_path / "copy.sqlite").is_file()
    typed(book, "export", tmp_path / "out.json")
    again = tmp_path / "again.sqlite"
    code, said = disks.footlight(again, "restore", str(tmp_path / "out.json"))
    assert code == 7 and "cdcdcdcd" in said and notes(again) == ["even"]


def test_no_copy_of_what_does_not_fit_together(book: Path, tmp_path: Path):
    with closing(sqlite3.connect(book)) as connection:
        connection.execute("UPDATE remarks SET sheet_id = 99")
        connection.commit()
    code, said = disks.footlight(book, "backup", str(tmp_path / "copy.sqlite"))
    assert code == 7 and "refers to a row of sheets that is not there" in said
    assert not (tmp_path / "copy.sqlite").exists()


def test_check_for_a_script(book: Path):
    assert json.loads(typed(book, "check", "--json"))["faults"] == []
