"""Everything out of the notebook and back: the same rows, the same stories."""

import csv
import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from tests.host.notebook.journals import EVENING, PRINT, PRINT_PROGRAM, SHA, write

from footlight.cli.main import group
from footlight.errors import FootlightError
from footlight.notebook import bring, programs
from footlight.notebook.book import notebook


@pytest.fixture(autouse=True)
def book(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    path = tmp_path / "notebook.sqlite"
    monkeypatch.setenv("FOOTLIGHT_NOTEBOOK", str(path))
    with notebook(path, writing=True) as connection:
        bring.bring(connection, bring.epoch_id(connection, "box-1", "e1", EVENING), write(*PRINT), EVENING)
        sequence = programs.Sequence(SHA, "PENCIL", "reversal print", PRINT_PROGRAM, "# é\n", "8 s")
        programs.note_sent(connection, sequence, "box-1", 1, EVENING)
    run("write", 41, "--defect", "veil", "a note")
    return path


def run(*arguments: object) -> Result:
    result = CliRunner().invoke(group, [str(argument) for argument in arguments])
    if result.exception is not None and not isinstance(result.exception, (FootlightError, SystemExit)):
        raise result.exception
    return result


def test_out_and_back_is_the_same(tmp_path: Path):
    out, again, new = tmp_path / "out.json", tmp_path / "again.json", tmp_path / "new.sqlite"
    assert run("export", out).exit_code == 0
    assert run("restore", out, "--notebook", new).exit_code == 0
    assert run("export", again, "--notebook", new).exit_code == 0
    assert json.loads(again.read_text("utf-8")) == json.loads(out.read_text("utf-8"))
    assert run("sheet", 41, "--notebook", new).output == run("sheet", 41).output
    assert json.loads(run("search", "veil", "--json", "--notebook", new).output)[0]["sheet"] == 41


def test_csv_holds_the_rows_by_column(tmp_path: Path):
    folder = tmp_path / "tables"
    run("export", folder, "--csv")
    with (folder / "lights.csv").open(encoding="utf-8", newline="") as file:
        (light,) = csv.DictReader(file)
    assert (light["planned_ms"], light["gate_ms"], light["how"]) == ("8050", "8150", "whole")
    assert "there is such a folder" in str(run("export", folder, "--csv").exception)


def test_nothing_is_written_over(tmp_path: Path, book: Path):
    out = tmp_path / "out.json"
    run("export", out)
    before = book.read_bytes()
    assert "such a file already" in str(run("export", out).exception)
    assert "only into a new one" in str(run("restore", out).exception)
    assert book.read_bytes() == before


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (lambda whole: "Dear diary", "cannot be read as an exported notebook"),
        (lambda whole: "[1]", "no exported notebook"),
        (lambda whole: json.dumps(whole | {"version": 99}), "of version 99"),
        (lambda whole: json.dumps(whole | {"tables": {"songs": []}}), "not known: songs"),
        (lambda whole: json.dumps(whole | {"tables": {"sheets": [{"id": 1}]}}), "other columns"),
        (lambda whole: json.dumps(whole | {"tables": []}), "no exported notebook"),
        # A sheet of a memory that is not there: found at the commit.
        (
            lambda whole: json.dumps(
                whole | {"tables": {"sheets": [{"id": 1, "epoch_id": 9, "number": 4, "act_id": None}]}}
            ),
            "do not fit together",
        ),
        (
            lambda whole: json.dumps(
                whole | {"tables": {"sheets": [{"id": "x", "epoch_id": 1, "number": None, "act_id": None}]}}
            ),
            "do not fit together",
        ),
    ],
)
def test_a_bad_file_leaves_nothing(tmp_path: Path, change, said: str):
    out, bad, new = tmp_path / "out.json", tmp_path / "bad.json", tmp_path / "new.sqlite"
    run("export", out)
    bad.write_text(change(json.loads(out.read_text("utf-8"))), encoding="utf-8")
    result = run("restore", bad, "--notebook", new)
    assert result.exit_code != 0 and said in str(result.exception)
    if new.exists():
        with notebook(new, writing=False) as connection:
            assert connection.execute("SELECT count(*) FROM sheets").fetchone()[0] == 0
