"""Writing by answering questions: letters, Enter leaves a thing, Ctrl-C loses nothing that was answered."""

import os
import select
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from tests.host.cli.day import Day, day

from footlight.cli import write
from footlight.cli.main import group
from footlight.cli.write.questions import letters
from footlight.notebook import book as book_module
from footlight.notebook.sheets.remarks import DEFECTS, VERDICTS

__all__ = ["day"]


@pytest.fixture(autouse=True)
def at_a_terminal(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(write, "_at_terminal", lambda: True)


def answer(*lines: str) -> Result:
    """`footlight write 41` with these lines typed; after the last the input ends, as by Ctrl-D."""
    return CliRunner().invoke(group, ["write", "41"], input="".join(f"{line}\n" for line in lines))


def written(day: Day) -> list[tuple[str, str]]:
    return [(one["kind"], one["text"]) for one in day.json("sheet 41")["written"]]


def test_letters_are_first_letters_and_each_its_own():
    assert letters(VERDICTS) == {"g": "good", "u": "usable", "l": "lost"}
    assert letters(DEFECTS) == {
        "m": "mottle",
        "v": "veil",
        "s": "stain",
        "d": "drop",
        "t": "tongs",
        "b": "border",
        "l": "blister",
    }


def test_answered_shown_and_saved_as_one_act(day: Day, tmp_path: Path):
    image = pytest.importorskip("PIL.Image")
    image.new("L", (30, 20)).save(tmp_path / "print 41.png")
    day.asked("paper add A baryta --size 8x10 --sheets 9")
    said = answer("u", "mv", "upper left", "a", f"'{tmp_path / 'print 41.png'}'", "").output
    shown = said.partition("This will be saved:\n")[2].partition("Enter saves")[0]
    assert [line.strip() for line in shown.splitlines()][:5] == [
        "verdict: usable",
        "defect: mottle",
        "defect: veil",
        "note: upper left",
        "paper: A, baryta",
    ]
    story = day.json("sheet 41")
    assert [one["kind"] for one in story["written"]] == ["verdict", "defect", "defect", "note"]
    assert story["paper"]["name"] == "A" and story["pictures"][0]["name"] == "print 41.png"
    day.asked("undo")
    assert day.json("sheet 41") | {"written": [], "paper": None, "pictures": []} == day.json("sheet 41")


def test_enter_leaves_everything(day: Day):
    day.asked("write 41 --verdict good --defect stain")
    said = answer("", "", "", "")
    assert "[good]" in said.output and "[stain]" in said.output
    assert said.output.endswith("Nothing answered, nothing saved.\n")
    assert len(day.json("history")) == 1


def test_what_stands_is_not_written_twice(day: Day):
    day.asked("write 41 --defect stain")
    answer("", "sd", "", "", "")
    assert written(day) == [("defect", "stain"), ("defect", "drop")]


def test_no_at_the_end_saves_nothing(day: Day):
    assert answer("g", "", "", "", "n").output.endswith("Nothing saved.\n")
    assert written(day) == []


def test_a_wrong_letter_is_asked_again(day: Day):
    said = answer("x", "good", "q", "m", "", "/none.png", "", "").output
    assert "'x': g good, u usable, l lost, or Enter to leave it" in said
    assert "'q': m mottle" in said and "no such file" in said
    assert written(day) == [("verdict", "good"), ("defect", "mottle")]


def test_a_notebook_that_cannot_be_written_gives_the_answers_back(day: Day, monkeypatch: pytest.MonkeyPatch):
    connect = book_module._connect
    monkeypatch.setattr(book_module, "_connect", lambda path, mode: connect(path, "ro"))
    result = answer("u", "mv", "upper left", "", "")
    assert "read-only; nothing was changed" in str(result.exception)
    again = "footlight write 41 --verdict usable --defect mottle --defect veil 'upper left'"
    assert again in result.stderr
    monkeypatch.undo()
    monkeypatch.setenv("FOOTLIGHT_NOTEBOOK", str(day.path))
    day.asked(again.removeprefix("footlight "))
    assert written(day)[-1] == ("note", "upper left")


def test_a_sheet_that_is_not_there_is_said_before_any_question(day: Day):
    result = CliRunner().invoke(group, ["write", "77"], input="g\n")
    assert "sheet 77: not in the notebook" in str(result.exception) and "verdict" not in result.output


def test_without_a_terminal_nothing_is_asked(day: Day, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr(write, "_at_terminal", lambda: False)
    assert "nothing to write; give a note" in day.refused("write 41")


class Terminal:
    """The command at a terminal of its own, with a keyboard."""

    def __init__(self) -> None:
        pty = pytest.importorskip("pty")
        self.keyboard, inner = pty.openpty()
        tool = [sys.executable, "-c", "from footlight.cli.main import run; run()", "write", "41"]
        self.process = subprocess.Popen(tool, stdin=inner, stdout=inner, stderr=inner, start_new_session=True)
        os.close(inner)
        self.shown = ""

    def until(self, text: str) -> None:
        """Wait until it shows `text`, after what was waited for before."""
        seen = len(self.shown)
        assert self._shows(text, seen, 30), self.shown

    def interrupt(self, text: str) -> None:
        """Ctrl-C until it shows `text`: the interpreter misses one that comes as it begins to read a line.

        The child has no controlling terminal here, so it is sent the signal itself.
        """
        seen = len(self.shown)
        for _ in range(5):
            self.process.send_signal(signal.SIGINT)
            if self._shows(text, seen, 4):
                return
        raise AssertionError(self.shown)

    def _shows(self, text: str, seen: int, within_s: float) -> bool:
        end_s = time.monotonic() + within_s
        while text not in self.shown[seen:] and time.monotonic() < end_s:
            if select.select([self.keyboard], [], [], 0.1)[0]:
                self.shown += os.read(self.keyboard, 4096).decode()
        return text in self.shown[seen:]

    def type(self, text: str) -> None:
        os.write(self.keyboard, text.encode())

    def end(self) -> int:
        code = self.process.wait(timeout=30)
        os.close(self.keyboard)
        return code


def test_ctrl_c_on_the_way_keeps_what_was_answered(day: Day):
    terminal = Terminal()
    terminal.until("verdict")
    terminal.type("u\n")
    terminal.until("defects")
    terminal.type("m\n")
    terminal.until("note")
    terminal.interrupt("Enter saves it")
    assert "Stopped here." in terminal.shown and "defect: mottle" in terminal.shown
    terminal.type("\n")
    assert terminal.end() == 0
    assert written(day) == [("verdict", "usable"), ("defect", "mottle")]


def test_ctrl_c_twice_leaves_all_as_it_was(day: Day):
    terminal = Terminal()
    terminal.until("verdict")
    terminal.type("u\n")
    terminal.until("defects")
    terminal.interrupt("Enter saves it")
    terminal.interrupt("stopped")
    assert terminal.end() == 130
    assert written(day) == []
