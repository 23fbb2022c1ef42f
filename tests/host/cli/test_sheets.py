"""The commands that read the notebook: the list, one sheet, and what is said when something is wrong."""

import json
import sqlite3
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from tests.host.notebook.journals import (
    BOOT,
    DATED,
    EVENING,
    PRINT,
    PRINT_PROGRAM,
    SHA,
    SHORT_SHA,
    arm,
    write,
)

from footlight.cli.main import COMMANDS, group
from footlight.errors import FootlightError
from footlight.notebook.book import notebook
from footlight.notebook.journal import bring, programs


@pytest.fixture
def book(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    path = tmp_path / "notebook.sqlite"
    monkeypatch.setenv("FOOTLIGHT_NOTEBOOK", str(path))
    monkeypatch.setenv("TZ", "UTC")
    return path


def fill(path: Path, *rows: tuple[object, ...], controller: str = "box-1") -> None:
    with notebook(path, writing=True) as connection:
        epoch = bring.epoch_id(connection, controller, "e1", EVENING)
        bring.bring(connection, epoch, write(*rows), EVENING + 3600)


def know_program(path: Path) -> None:
    arithmetic = "step 2: 6.0 s at 620 mm f/11 -> 8.05 s"
    sequence = programs.Sequence(SHA, "PENCIL", "reversal print", PRINT_PROGRAM, "", arithmetic)
    with notebook(path, writing=True) as connection:
        programs.store(connection, sequence, EVENING)


def run(*arguments: object) -> Result:
    result = CliRunner().invoke(group, [str(argument) for argument in arguments])
    if result.exception is not None and not isinstance(result.exception, (FootlightError, SystemExit)):
        raise result.exception
    return result


def table(text: str) -> list[list[str]]:
    """Rows of printed columns: cells are two spaces or more apart."""
    return [[cell.strip() for cell in line.split("  ") if cell.strip()] for line in text.splitlines()]


def test_the_list(book: Path):
    fill(book, *PRINT)
    rows = table(run("sheets").output)
    assert rows[1] == ["41", "2026-03-01 18:00", "PENCIL", "whole"]
    (listed,) = json.loads(run("sheets", "--json").output)
    assert (listed["sheet"], listed["from_unix_s"], listed["sequences"]) == (41, EVENING + 8, ["PENCIL"])


def test_the_list_is_short_and_says_how_many_more(book: Path):
    fill(book, BOOT, DATED, *[arm(number, number, number) for number in range(1, 31)])
    output = run("sheets", "--last", 2).output
    assert [row[0] for row in table(output)[1:3]] == ["30", "29"]
    assert "28 older ones" in output


def test_planned_against_given(book: Path):
    fill(book, *PRINT)
    know_program(book)
    output = run("sheet", 41).output
    rows = {row[1]: row for row in table(output) if len(row) > 3}
    assert rows["first developer"][2:] == ["2:00", "2:03.5", "+3.5 s", "by pedal"]
    light = rows["second exposure (F11 620 mm)"]
    assert light[2:5] == ["8.05 s", "8.05 s", "0"]
    assert light[5] == "whole; lamp on 8.15 s = 3.05 + 5.10"
    assert rows["clearing"][2:] == ["30 s to 4:00", "45 s", "0", "by pedal"]
    assert "PENCIL, reversal print: 2026-03-01 18:00; whole" in output
    assert "620 mm f/11 ->" not in output
    assert "step 2: 6.0 s at 620 mm f/11 -> 8.05 s" in run("sheet", 41, "--arithmetic").output


def test_an_unknown_program_is_said_and_lights_are_held_against_the_intent(book: Path):
    fill(book, *PRINT)
    output = run("sheet", 41).output
    assert f"sequence {SHA[:8]} was not sent from this notebook" in output
    rows = {row[1]: row for row in table(output) if len(row) > 3}
    assert rows["step 2"][2:5] == ["8.05 s", "8.05 s", "0"]
    assert rows["step 1"][2:5] == ["–", "2:03.5", "–"]


def test_too_little_light_is_told_in_stops(book: Path):
    intent = (0, "intent", 1, 1, 7, 8_000, 8_050, SHORT_SHA)
    fill(book, BOOT, arm(0, 1, 7), intent, (0, "gave", 1, 1, 7, 4_050, 4_000, 4_000, "abandoned"))
    rows = {row[1]: row for row in table(run("sheet", 7).output) if len(row) > 3}
    # Half the light is one stop.
    assert rows["step 1"][3:5] == ["4.00 s", "−1.00 stop"]


def test_a_light_hidden_by_a_power_cut_has_bounds(book: Path):
    intent = (0, "intent", 1, 1, 7, 8_000, 8_050, SHORT_SHA)
    fill(book, BOOT, arm(0, 1, 7), intent, BOOT, (0, "cut", 1, 1, 7, 0, 8_000), (9, "fault", 1, 1, 4))
    output = run("sheet", 7).output
    rows = {row[1]: row for row in table(output) if len(row) > 3}
    assert rows["step 1"][3:6] == ["0.00–8.00 s", "–", "cut off"]
    assert "not ended" in output and "fault: the lamp burns although the gate is low" in output
    assert "date unknown, before 2026-03-01 19:00" in output


def test_sequence_and_light_setups_as_they_were_sent(book: Path):
    fill(book, *PRINT)
    assert "was not sent from this notebook." in run("sheet", 41, "--as-sent").output
    sequence = programs.Sequence(
        SHA, "PENCIL", "print", PRINT_PROGRAM, 'title = "P"\n', "", "[setup.second]\n"
    )
    with notebook(book, writing=True) as connection:
        programs.store(connection, sequence, EVENING)
    shown = run("sheet", 41, "--as-sent").output
    assert (
        '  the sequence as sent:\n  | title = "P"\n  the light setups as sent:\n  | [setup.second]' in shown
    )
    assert "as sent:" not in run("sheet", 41).output


def test_json_holds_all_of_it(book: Path):
    fill(book, *PRINT)
    know_program(book)
    story = json.loads(run("sheet", 41, "--json").output)
    (part,) = story["runs"]
    assert [row["light"] for row in part["rows"]] == [False, True, False]
    assert part["rows"][1]["least_ms"] == 8_050 and part["rows"][1]["setup"]["height_mm"] == 620


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("sheets",), "no notebook there yet; 'footlight collect' makes it"),
        (("sheet", 5), "no notebook there yet"),
    ],
)
def test_no_notebook_yet(book: Path, arguments: tuple[object, ...], said: str):
    result = run(*arguments)
    assert result.exit_code != 0 and said in str(result.exception)
    assert not book.exists()


def test_no_such_sheet(book: Path):
    fill(book, *PRINT)
    assert "sheet 42: not in the notebook; 'footlight sheets'" in str(run("sheet", 42).exception)


def test_a_sheet_of_several_controllers(book: Path):
    fill(book, *PRINT)
    fill(book, *PRINT, controller="box-2")
    assert "several controllers have one (box-1, box-2)" in str(run("sheet", 41).exception)
    assert "of controller box-2" in run("sheet", 41, "--controller", "box-2").output
    assert {row[-1] for row in table(run("sheets").output)[1:]} == {"box-1", "box-2"}


def test_a_foreign_file_is_left_as_it_is(book: Path):
    other = sqlite3.connect(book)
    other.execute("CREATE TABLE songs (name)")
    other.commit()
    other.close()
    before = book.read_bytes()
    assert "another program's file" in str(run("sheets").exception)
    assert book.read_bytes() == before


@pytest.mark.parametrize(
    "name", ["find", "slots", "send", "clear", "watch", "collect", "sheets", "sheet", "completion"]
)
def test_every_command_has_help_with_an_example(name: str):
    output = run(name, "--help").output
    assert name in COMMANDS and "Example:" in output and f"footlight {name}" in output


@pytest.mark.parametrize("shell", ["bash", "zsh", "fish"])
def test_completion_says_how_and_gives_the_script(shell: str):
    assert f"footlight completion {shell} --script" in run("completion", shell).output
    script = run("completion", shell, "--script").output
    assert "_FOOTLIGHT_COMPLETE" in script


def test_the_script_completes_commands(monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setenv("COMP_WORDS", "footlight she")
    monkeypatch.setenv("COMP_CWORD", "1")
    result = CliRunner().invoke(
        group, [], prog_name="footlight", env={"_FOOTLIGHT_COMPLETE": "bash_complete"}
    )
    assert [line.split(",")[1] for line in result.output.splitlines()] == ["sheets", "sheet"]
