"""Writing about a sheet, finding it, taking it back, and a copy of it all."""

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from tests.host.notebook.journals import EVENING, PRINT, write

from footlight.cli.main import group
from footlight.errors import FootlightError
from footlight.notebook.book import notebook
from footlight.notebook.journal import bring


@pytest.fixture(autouse=True)
def book(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    path = tmp_path / "notebook.sqlite"
    monkeypatch.setenv("FOOTLIGHT_NOTEBOOK", str(path))
    with notebook(path, writing=True) as connection:
        bring.bring(connection, bring.epoch_id(connection, "box-1", "e1", EVENING), write(*PRINT), EVENING)
    return path


def run(*arguments: object) -> Result:
    result = CliRunner().invoke(group, [str(argument) for argument in arguments])
    if result.exception is not None and not isinstance(result.exception, (FootlightError, SystemExit)):
        raise result.exception
    return result


def written() -> list[tuple[str, str]]:
    shown = json.loads(run("sheet", 41, "--json").output)["written"]
    return [(remark["kind"], remark["text"]) for remark in shown]


def test_written_shown_found_and_taken_back(book: Path):
    run("write", 41, "--verdict", "usable", "--defect", "mottle", "upper", "left,", "bath", "was", "tired")
    assert written() == [("verdict", "usable"), ("defect", "mottle"), ("note", "upper left, bath was tired")]
    assert "note: upper left, bath was tired" in run("sheet", 41).output
    assert [one["sheet"] for one in json.loads(run("search", "tire", "BATH", "--json").output)] == [41]
    assert json.loads(run("search", "tired", "fixer", "--json").output) == []
    run("write", 41, "dried", "flat")
    assert run("undo").output == "taken back: sheet 41: note dried flat\n"
    assert run("undo").output == (
        "taken back: sheet 41: verdict usable; defect mottle; note upper left, bath was tired\n"
    )
    assert written() == []
    assert json.loads(run("search", "tired", "--json").output) == []
    with notebook(book, writing=False) as connection:
        assert connection.execute("SELECT count(*) FROM remarks").fetchone()[0] == 4


def test_the_last_verdict_counts_and_the_one_before_comes_back():
    run("write", 41, "--verdict", "good")
    run("write", 41, "--verdict", "lost")
    assert written() == [("verdict", "lost")]
    run("undo")
    assert written() == [("verdict", "good")]


def test_an_undo_of_nothing():
    result = run("undo")
    assert result.exit_code != 0 and "nothing to take back" in str(result.exception)


def test_nothing_to_write_and_no_such_sheet():
    assert "nothing to write" in str(run("write", 41).exception)
    assert "sheet 42: not in the notebook" in str(run("write", 42, "good").exception)


@pytest.mark.parametrize("words", ['"', "a AND", "NEAR(", "*", "col:x", "mottle OR veil"])
def test_a_search_is_only_ever_for_words(words: str):
    run("write", 41, "--defect", "mottle")
    assert json.loads(run("search", "--json", "--", words).output) == []


def test_a_backup_is_a_notebook(tmp_path: Path):
    run("write", 41, "kept")
    copy = tmp_path / "copy.sqlite"
    assert "checked" in run("backup", copy).output
    assert "41" in run("sheets", "--notebook", copy).output
    assert "is there already" in str(run("backup", copy).exception)
    assert "no such folder" in str(run("backup", tmp_path / "none" / "copy.sqlite").exception)
