"""Everything out of the notebook and back: the same rows, the same stories."""

import csv
import hashlib
import json
import shlex
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from tests.host.notebook.journals import EVENING, PRINT, PRINT_PROGRAM, SHA, write

from footlight.cli.main import group
from footlight.errors import FootlightError
from footlight.notebook import exchange, restore
from footlight.notebook.acts import act
from footlight.notebook.book import notebook
from footlight.notebook.journal import bring, programs


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


# One line for each kind of thing that can be entered; `everything` runs them all.
ENTERED = (
    "paper add A baryta --size 8x10 --sheets 25 --speed 4",
    "paper spoiled A 2 cut up",
    "lens add 'portrait lens' --focal '210 mm'",
    "expose 41 --meter 'EV 12' --stop f/22 --lens 'portrait lens' --subject 'two chairs'",
    "expose 99 --planned '4 s'",
    "session name evening",
    "write 41 --verdict good --paper A",
    "write 41 even blacks",
    "write 41 taken back",
    "undo",
)


@pytest.fixture
def everything(tmp_path: Path, book: Path) -> list[str]:
    """A row in every table but those of the controllers' faults -> the tables without a row."""
    image = pytest.importorskip("PIL.Image")
    image.new("L", (30, 20)).save(tmp_path / "print.png")
    for line in (*ENTERED, f"attach 41 '{tmp_path / 'print.png'}'"):
        assert run(*shlex.split(line)).exit_code == 0, line
    with notebook(book, writing=True) as connection, act(connection, "by hand", EVENING) as act_id:
        setup = (act_id, "setups.toml", "second exposure", "", "6 s")
        connection.execute("INSERT INTO light_setups VALUES (1, ?, ?, ?, ?, ?, NULL)", setup)
        bath = (act_id, "bleach", "", "stock", "bleach", 1000.5, EVENING, '{"a": "é"}')
        connection.execute("INSERT INTO baths VALUES (1, ?, ?, ?, ?, ?, ?, ?, ?)", bath)
        connection.execute(
            "INSERT INTO bath_findings VALUES (1, ?, 1, 'note', NULL, 'foams', ?)", (act_id, EVENING)
        )
        connection.execute(
            "INSERT INTO readings (act_id, kind, sheet_id, result) VALUES (?, 'print', 1, '{}')", (act_id,)
        )
        connection.execute("INSERT INTO fog_tests VALUES (1, ?, 'before', 420, NULL)", (act_id,))
        connection.execute("INSERT INTO doses SELECT id, 1, 50, 40, 0, 0, 0, 'level' FROM lights LIMIT 1")
        connection.execute("INSERT INTO faults SELECT id, 1, 0, 0, 4 FROM epochs")
    with notebook(book, writing=False) as connection:
        names = exchange.tables(connection)
        return [name for name in names if not connection.execute(f"SELECT 1 FROM {name}").fetchone()]


def test_every_table_goes_out_and_back(tmp_path: Path, everything: list[str]):
    # A table that has come new must be filled above, or nothing here has tried it.
    assert everything == []
    out, again, new = tmp_path / "out.json", tmp_path / "again.json", tmp_path / "new.sqlite"
    run("export", out)
    run("restore", out, "--notebook", new)
    run("export", again, "--notebook", new)
    assert json.loads(again.read_text("utf-8")) == json.loads(out.read_text("utf-8"))
    # 'even': a session's name and, later, a note; the newest first, also out of a restore.
    assert [one["kind"] for one in json.loads(run("search", "even", "--json").output)] == ["note", "session"]
    for words in (["chairs"], ["foams"], ["baryta"], ["even"], ["taken"]):
        found = run("search", *words, "--json").output
        assert run("search", *words, "--json", "--notebook", new).output == found
        assert (found == "[]\n") == (words == ["taken"])
    for copy in ("one.jpg", "other.jpg"):
        run("attach", 41, "--out", tmp_path / copy, *(["--notebook", new] if copy == "other.jpg" else []))
    assert (tmp_path / "one.jpg").read_bytes() == (tmp_path / "other.jpg").read_bytes()
    assert run("history", "--notebook", new).output == run("history").output


def test_pictures_lie_beside_the_csv_tables(tmp_path: Path, everything: list[str]):
    run("export", tmp_path / "tables", "--csv")
    with (tmp_path / "tables" / "pictures.csv").open(encoding="utf-8", newline="") as file:
        (row,) = csv.DictReader(file)
    data = (tmp_path / "tables" / row["data"]).read_bytes()
    assert hashlib.sha256(data).hexdigest() == row["sha256"] and row["data"].endswith(".jpg")


def test_the_csv_tables_go_back_in(tmp_path: Path, everything: list[str]):
    run("write", 41, 'two lines\nand a "quoted", comma')
    out, folder, new = tmp_path / "out.json", tmp_path / "tables", tmp_path / "new.sqlite"
    run("export", out)
    run("export", folder, "--csv")
    told = json.loads(run("restore", folder, "--json", "--notebook", new).output)
    assert told["rows"] == sum(map(len, json.loads(out.read_text("utf-8"))["tables"].values()))
    run("export", tmp_path / "again.json", "--notebook", new)
    assert json.loads((tmp_path / "again.json").read_text("utf-8")) == json.loads(out.read_text("utf-8"))


@pytest.mark.parametrize(
    ("name", "text", "said"),
    [
        ("about.csv", None, "no exported notebook, or a part of one"),
        ("about.csv", "format,version\nfootlight notebook,99\n", "of version 99"),
        ("about.csv", "format,version\nother,1\n", "no exported notebook"),
        ("songs.csv", "name\nx\n", "not known: songs"),
        ("sheets.csv", "id,epoch_id,number,act_id\none,1,41,\n", "id: 'one' is no number"),
        ("sheets.csv", "id,epoch_id\n1,1\n", "a row with other columns"),
        ("sheets.csv", "id,epoch_id,number,act_id\n1,1,41,,,,\n", "a row with other columns"),
        (
            "pictures.csv",
            "id,act_id,sheet_id,reading_id,name,media,sha256,data\n1,1,1,,n,image/png,x,../../secret\n",
            "lies outside the exported folder",
        ),
    ],
)
def test_a_bad_folder_leaves_nothing(tmp_path: Path, name: str, text: str | None, said: str):
    run("export", tmp_path / "tables", "--csv")
    if text is None:
        (tmp_path / "tables" / name).unlink()
    else:
        (tmp_path / "tables" / name).write_text(text, encoding="utf-8")
    result = run("restore", tmp_path / "tables", "--notebook", tmp_path / "new.sqlite")
    assert result.exit_code != 0 and said in str(result.exception)
    assert not (tmp_path / "new.sqlite").exists()


def test_a_restore_that_fails_half_way_leaves_no_notebook(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    run("export", tmp_path / "out.json")
    new = tmp_path / "new.sqlite"

    def full(connection: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(restore, "index_words", full)
    assert "No space left on device" in str(
        run("restore", tmp_path / "out.json", "--notebook", new).exception
    )
    assert sorted(path.name for path in tmp_path.iterdir()) == ["notebook.sqlite", "out.json"]


def test_an_export_is_whole_or_not_there(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    def full(path: Path, target: Path) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "replace", full)
    assert "no space left" in str(run("export", tmp_path / "out.json").exception)
    assert [path.name for path in tmp_path.iterdir()] == ["notebook.sqlite"]


def test_csv_holds_the_rows_by_column(tmp_path: Path):
    folder = tmp_path / "tables"
    run("export", folder, "--csv")
    with (folder / "lights.csv").open(encoding="utf-8", newline="") as file:
        (light,) = csv.DictReader(file)
    assert (light["planned_ms"], light["gate_ms"], light["how"]) == ("8050", "8150", "whole")
    assert "is there already" in str(run("export", folder, "--csv").exception)


def test_nothing_is_written_over(tmp_path: Path, book: Path):
    out = tmp_path / "out.json"
    run("export", out)
    before = book.read_bytes()
    assert "is there already" in str(run("export", out).exception)
    assert "only into a new one" in str(run("restore", out).exception)
    assert book.read_bytes() == before


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (lambda whole: "Dear diary", "no exported notebook, or a part of one"),
        (lambda whole: "[1]", "no exported notebook"),
        (lambda whole: json.dumps(whole | {"version": 99}), "of version 99"),
        (lambda whole: json.dumps(whole | {"tables": {"songs": []}}), "not known: songs"),
        (lambda whole: json.dumps(whole | {"tables": {"sheets": [{"id": 1}]}}), "other columns"),
        (lambda whole: json.dumps(whole | {"tables": []}), "no exported notebook"),
        (lambda whole: json.dumps(whole | {"version": 0}), "of version 0"),
        (lambda whole: json.dumps(whole | {"version": "3"}), "of version 3"),
        (
            lambda whole: json.dumps(
                whole | {"tables": {"controllers": [{"id": {"base64": "!"}, "first_met_unix_s": 1}]}}
            ),
            "neither text, number nor base64",
        ),
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


def test_no_cell_is_a_formula_to_a_spreadsheet(tmp_path: Path, book: Path):
    texts = ['=HYPERLINK("x")', "+1", "-1", "@a", "'=quoted", "plain", "'tis"]
    for text in texts:
        run("write", 41, "--", text)
    assert run("export", tmp_path / "tables", "--csv").exit_code == 0
    with (tmp_path / "tables" / "remarks.csv").open(encoding="utf-8", newline="") as file:
        cells = [row["text"] for row in csv.DictReader(file)]
    assert not [cell for cell in cells if cell.startswith(("=", "+", "-", "@"))]
    new = tmp_path / "new.sqlite"
    assert run("restore", tmp_path / "tables", "--notebook", new).exit_code == 0
    with notebook(new, writing=False) as connection:
        back = [row["text"] for row in connection.execute("SELECT text FROM remarks ORDER BY id")]
    assert back[-len(texts) :] == texts


def test_nothing_is_written_through_a_link_to_nowhere(tmp_path: Path):
    (tmp_path / "out.json").symlink_to(tmp_path / "elsewhere.json")
    result = run("export", tmp_path / "out.json")
    assert result.exit_code == 1 and "is a link to a file that is not there" in str(result.exception)
    assert not (tmp_path / "elsewhere.json").exists()
