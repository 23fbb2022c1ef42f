"""A notebook that is locked, read-only, damaged, newer or another program's: one line from every command."""

import sqlite3
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from tests.host.cli.day import Day, day

from footlight.notebook import book as book_module
from footlight.notebook import place
from footlight.notebook.book import notebook
from footlight.notebook.errors import NotebookError

__all__ = ["day"]

WRITES = (
    "write 41 good",
    "expose 41 --planned '4 s'",
    "expose 60 --planned '4 s'",
    "paper add B baryta --size 8x10 --sheets 5",
    "lens add wide --focal '90 mm'",
    "session name evening",
    "undo",
)
READS = ("sheets", "sheet 41", "search good", "paper list", "lens list", "session list", "history", "setups")


@contextmanager
def locked(path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[str]:
    monkeypatch.setattr(book_module, "BUSY_WAIT_S", 0.02)
    with notebook(path, writing=True) as other:
        other.execute("BEGIN EXCLUSIVE")
        yield "is in use by another program; close that one, or wait, and repeat the command"
        other.execute("ROLLBACK")


@contextmanager
def newer(path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[str]:
    with notebook(path, writing=True) as other:
        other.execute("PRAGMA user_version = 999")
    yield "written by a newer footlight (version 999"


@contextmanager
def damaged(path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[str]:
    data = bytearray(path.read_bytes())
    data[100:] = b"\xa5" * (len(data) - 100)
    path.write_bytes(bytes(data))
    yield "damaged"


@contextmanager
def foreign(path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[str]:
    path.unlink()
    other = sqlite3.connect(path)
    other.execute("CREATE TABLE songs (name)")
    other.commit()
    other.close()
    yield "another program's file"


@contextmanager
def far_away(path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[str]:
    monkeypatch.setattr(place, "network_kind", lambda folder: "nfs4")
    yield "on the network (nfs4)"


@pytest.mark.parametrize("wrong", [locked, newer, damaged, foreign, far_away])
def test_one_line_and_nothing_changed(day: Day, monkeypatch: pytest.MonkeyPatch, wrong: Callable):
    with wrong(day.path, monkeypatch) as said:
        for line in WRITES + READS:
            assert said in day.refused(line), line


def test_a_read_only_notebook_is_read_and_not_written(day: Day, monkeypatch: pytest.MonkeyPatch):
    day.asked("write 41 good")
    day.asked("paper add A baryta --size 8x10 --sheets 5")
    connect = book_module._connect
    # What SQLite does by itself when the file cannot be written; root can write any.
    monkeypatch.setattr(book_module, "_connect", lambda path, mode: connect(path, "ro"))
    for line in READS:
        day.asked(line)
    for line in WRITES:
        assert "read-only; nothing was changed" in day.refused(line), line


def test_an_unknown_controller(day: Day):
    assert "--controller box-9: no such controller in the notebook; known: box-1" in day.refused(
        "sheet 41 --controller box-9"
    )
    assert "no such controller" in day.refused("write 41 good --controller box-9")
    # A journal of a controller that was never met comes in beside the others.
    day.home((0, "boot", "power", 0, 1, 0), (5, "arm", 1, 1, "cd" * 8, "OTHER", 3, 1), controller="box-9")
    assert [(one["sheet"], one["controller"]) for one in day.json("sheets")] == [(3, "box-9"), (41, "box-1")]


# What is not there, by its name or number, ends alike whatever it is.
UNKNOWN = (
    "sheet 99",
    "sheet 41 --controller box-9",
    "write 99 good",
    "attach 99 --out out.jpg",
    "page sheet 99",
    "again 99",
    "beside 41 99",
    "expose 41 --planned '4 s' --paper Z",
    "expose 41 --meter 'EV 12' --stop f/22 --ei 4 --lens Z",
    "sheets --paper Z",
    "sheets --session Z",
    "paper show Z",
    "paper use Z",
    "paper found Z --speed 4",
    "paper assign Z 41",
    "paper spoiled Z 1",
    "lens card Z",
    "page lens Z",
    "session show Z",
    "bath show Z",
    "bath chart Z",
    "bath found Z brown",
    "bath emptied Z",
    "bath emptied --all",
    "drift Z",
    "undo 99",
    "reinstate 99",
)


@pytest.mark.parametrize("line", UNKNOWN)
def test_what_is_not_in_the_notebook_has_one_exit_code(day: Day, line: str):
    day.refused(line)
    with pytest.raises(NotebookError):
        day.asked(line)


# They write about what is there, so none of them begins a notebook.
ABOUT = (
    "write 41 good",
    "attach 41 print.png",
    "paper found A --speed 4",
    "paper use A",
    "paper assign A 41",
    "paper spoiled A 1",
    "bath found bleach brown",
    "bath emptied bleach",
    "session name evening",
)


@pytest.mark.parametrize("line", ABOUT)
def test_a_notebook_that_is_not_there_is_not_made_for_it(day: Day, tmp_path: Path, line: str, picture: Path):
    other = tmp_path / "mistyped.sqlite"
    line = line.replace("print.png", f"{picture}")
    assert "mistyped.sqlite: no notebook there yet" in day.refused(f"{line} --notebook {other}")
    assert not other.exists()


@pytest.fixture
def picture(tmp_path: Path) -> Path:
    path = tmp_path / "print.png"
    pytest.importorskip("PIL.Image").new("L", (9, 9)).save(path)
    return path
