"""The commands that need a controller, with one in this process."""

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from tests.host.link.fakes import Box, BoxStream, FastClock, program_bytes, sha_of
from tests.host.notebook.journals import EVENING

from footlight.actions import collect_journal
from footlight.actions.watch_run import RunStatus
from footlight.cli.main import group
from footlight.errors import FootlightError
from footlight.link import transport
from footlight.link.channel import Channel
from footlight.views import journal_home
from footlight.views.run_status import status_lines

STATUS = {
    "state": "bath",
    "t": 75_000,
    "slot": 1,
    "sha": "",
    "run": 3,
    "sheet": 41,
    "step": 2,
    "start": 15_000,
    "left_ms": 0,
    "gate_ms": 0,
    "white": 0,
    "fault": 0,
    "found": 0,
}


@pytest.fixture
def box(monkeypatch: pytest.MonkeyPatch) -> Box:
    box = Box("box-1")
    box.store.held = {1: program_bytes("FLASH"), 4: program_bytes("PENCIL")}
    monkeypatch.setattr(transport, "open_stream", lambda address: BoxStream(box))
    return box


@pytest.fixture
def book(tmp_path: Path) -> Path:
    return tmp_path / "notebook.sqlite"


def run(*arguments: object) -> Result:
    result = CliRunner().invoke(group, [str(argument) for argument in arguments])
    if result.exception is not None and not isinstance(result.exception, (FootlightError, SystemExit)):
        raise result.exception
    return result


def test_slots(box: Box):
    output = run("slots", "--port", "box").output
    assert "FLASH" in output and "6 of 8 slots free" in output
    listed = json.loads(run("slots", "--port", "box", "--json").output)
    assert listed["used"][1] == {"slot": 4, "title": "PENCIL", "sha": sha_of(program_bytes("PENCIL"))[:16]}


def test_clear(box: Box):
    assert run("clear", 4, "--port", "box").output == "slot 4 is empty now; it held PENCIL\n"
    assert "slot 4 is empty already" in str(run("clear", 4, "--port", "box").exception)
    assert "slots 1 to 8" in str(run("clear", 9, "--port", "box").exception)
    assert list(box.store.held) == [1]


def test_collect_is_acknowledged_only_after_the_commit(box: Box, book: Path, monkeypatch: pytest.MonkeyPatch):
    box.journal.add(0, "boot", reason="power", value=0, build=1, fresh=0)

    def lose(*arguments: object):
        raise OSError("the disk is full")

    monkeypatch.setattr(collect_journal.bring, "bring", lose)
    channel = Channel(BoxStream(box), clock=FastClock())
    channel.greet()
    with pytest.raises(FootlightError, match="the disk is full"):
        collect_journal.bring_home(channel, book, EVENING)
    assert box.journal.first == 1


def test_collect_leaves_a_foreign_file_and_acknowledges_nothing(box: Box, book: Path):
    box.journal.add(0, "boot", reason="power", value=0, build=1, fresh=0)
    book.write_text("Dear diary, " * 100)
    result = run("collect", "--port", "box", "--notebook", book)
    assert "is no notebook" in str(result.exception)
    assert book.read_text() == "Dear diary, " * 100 and box.journal.first == 1


def test_collect_twice(box: Box, book: Path):
    box.journal.add(0, "boot", reason="power", value=0, build=1, fresh=0)
    box.journal.add(9, "arm", run=1, slot=1, sha="ab" * 8, title="FLASH", sheet=40, sheets=1)
    first = run("collect", "--port", "box", "--notebook", book).output
    assert first.startswith("3 new records from controller box-1: 1 run, sheet 40")
    # The second greeting left one more date.
    assert run("collect", "--port", "box", "--notebook", book).output.startswith("1 new record from")


def home_of(box: Box, book: Path) -> list[str]:
    channel = Channel(BoxStream(box), clock=FastClock())
    channel.greet()
    return journal_home.home_lines(collect_journal.bring_home(channel, book, EVENING))


def test_what_went_wrong_with_the_journal_is_said(box: Box, book: Path):
    for number in range(1, 10):
        box.journal.add(number, "focus", gate_ms=number)
    box.journal.keep_up_to(3)
    box.journal.lines[6] = "{torn"
    box.idle = False
    said = home_of(box, book)
    assert said == [
        "6 new records from controller box-1",
        "damaged on the controller, kept as they are: records 6",
        "records 1–3 are no longer on the controller: another notebook has them",
        "the controller is busy at the pedal: it keeps its records until the next 'footlight collect'",
    ]
    box.journal.lines = {number: line for number, line in box.journal.lines.items() if number < 8}
    assert "the controller's journal ends at record 7" in home_of(box, book)[1]


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({}, "sheet 41, step 2 – bath; 1:00"),
        ({"state": "idle", "run": 0}, "no run under way"),
        ({"state": "lit", "gate_ms": 8_050}, "sheet 41, step 2 – lit; lamp ON for 8.05 s"),
        (
            {"state": "held", "left_ms": 3_000},
            "lamp off, 3.00 s left: a press goes on, a long",
        ),
        ({"fault": 4}, "FAULT: the lamp burns although the gate is low"),
        ({"white": 1}, "white light is permitted"),
    ],
)
def test_watch_in_lines(change: dict[str, object], said: str):
    moment = RunStatus(STATUS | change, [])
    assert said in "; ".join(status_lines(moment))


def test_watch_names_the_step_when_the_notebook_knows_it():
    planned = [{"name": "rinse"}, {"name": "first developer", "kind": "bath", "time_ms": 120_000}]
    lines = status_lines(RunStatus(STATUS, planned))
    assert lines == ["sheet 41, step 2 of 2: first developer – bath", "1:00 of 2:00"]


@pytest.mark.parametrize(
    ("kind", "fault", "is_told"),
    [("light", 3, True), ("bath", 3, False), ("light", 9, False), ("light", 0, False)],
)
def test_watch_tells_what_a_fault_left_of_a_light(kind: str, fault: int, is_told: bool):
    """Not of a bath, nor where the gate did not report its end (fault 9), for then nobody knows."""
    planned = [{"name": "rinse"}, {"name": "second", "kind": kind, "time_ms": 5_000}]
    status = STATUS | {"state": "fault", "fault": fault, "left_ms": 3_025}
    said = "; ".join(status_lines(RunStatus(status, planned)))
    assert ("3.02 s of this light left" in said) == is_told


def test_the_dim_picture_is_red_on_black_and_nothing_else():
    from rich.console import Console

    from footlight.views.run_picture import picture

    planned = [{"name": "rinse"}, {"name": "first developer", "kind": "bath", "time_ms": 120_000}]
    console = Console(force_terminal=True, color_system="truecolor", width=60, height=12)
    segments = console.render(picture(RunStatus(STATUS, planned), dim=True), console.options)
    colours = {
        (tuple(style.color.triplet or ()), style.bgcolor)
        for segment in segments
        if (style := segment.style) is not None and style.color is not None and segment.text.strip()
    }
    assert colours
    for (red, green, blue), background in colours:
        assert 0 < red <= 0x60 and green == blue == 0
        assert background is None or background.triplet == (0, 0, 0)
