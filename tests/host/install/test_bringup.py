"""Bring-up on a board behind a pty: a maker who answers by script, and a foot that does as it is told."""

import json
import threading
from collections.abc import Iterator
from pathlib import Path

import pytest
from tests.host.install.boards import HAS_BOARD, Board, board

from footlight.actions import bring_up as bringing_up
from footlight.errors import InputError
from footlight.install import image, lamp, parts, pedals
from footlight.install.errors import InstallError

pytestmark = pytest.mark.skipif(not HAS_BOARD, reason="no MicroPython for this system")
NOW = 1_772_388_000
# What the foot, or the hand at the plug, does at each line that is said.
DOES = {
    "Press the pedal": {"down": True},
    "Let go": {"down": False},
    "Pull the pedal": {"down": False, "rest": 1},
    "Put it in": {"down": False},
}


class Scripted:
    """Answers yes but to the questions named; moves the pedal when told to."""

    def __init__(self, there: Board, no: str = "-", does: dict[str, dict[str, int]] | None = None) -> None:
        self.lines: list[str] = []
        self._there = there
        self._no = no
        self._does = DOES | (does or {})

    def say(self, text: str) -> None:
        self.lines.append(text)
        for start, foot in self._does.items():
            if text.startswith(start):
                self._there.foot(**foot)  # type: ignore[arg-type]

    def ready(self, text: str) -> None:
        self.say(text)

    def confirm(self, question: str) -> bool | None:
        self.lines.append(question)
        return self._no not in question


@pytest.fixture
def controller(tmp_path: Path) -> Iterator[Board]:
    with board(tmp_path) as made:
        made.hold(image.image(6))
        yield made


def bring_up(there: Board, maker: Scripted, *chosen: str) -> bringing_up.BringUp:
    return bringing_up.bring_up(there.port, maker, NOW, chosen=chosen)


def test_parts_are_worked_and_left_dark_silent_and_open(controller: Board, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr(parts, "_BETWEEN_MS", 10)
    monkeypatch.setattr(parts, "_LEVEL_MS", 10)
    before = len(controller.told())
    maker = Scripted(controller, no="quite dark")
    result = bring_up(controller, maker, "display", "sounds", "white light")
    told = controller.told()[before:]
    assert [check.what for check in result.failed] == ["brightness levels and dark"]
    assert {"start", "fault", "lift"} <= {line.strip() for line in maker.lines}
    assert "tone 600" in told and "tone 3000" in told
    assert [line for line in told if line.startswith("pin 6 ")].count("pin 6 1") == 1
    at_reset = told.index("reset")
    assert [line for line in told[:at_reset] if line.startswith("pin 6 ")][-1] == "pin 6 0"
    assert [line for line in told[:at_reset] if line.startswith("tone ")][-1] == "tone 0"
    # Nothing that is done at the prompt reaches the lamp; and the controller runs again.
    assert "lamp 1" not in told and told[at_reset:].count("watchdog on") == 1


def test_the_pedal_is_learnt(controller: Board):
    maker = Scripted(controller)
    result = bring_up(controller, maker, "pedal")
    assert [check.passed for check in result.checks] == [True] * 5
    assert any("pressed:" in line for line in maker.lines)


def test_an_exchanged_pedal_is_named(controller: Board, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr(pedals, "_WAIT_S", 1.0)
    controller.foot(down=True)
    result = bring_up(controller, Scripted(controller, does={"Foot off": {"down": True}}), "pedal")
    assert result.checks[0].passed is False
    assert "make and rest are exchanged" in result.checks[0].measured


def test_a_rest_line_that_cannot_break_is_named(controller: Board, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr(pedals, "_WAIT_S", 1.0)
    result = bring_up(controller, Scripted(controller, does={"Pull the pedal": {"down": False}}), "pedal")
    (failed,) = result.failed
    assert "a break would not end a light" in failed.measured


def test_the_lamp_is_lit_by_the_pedal_alone(controller: Board):
    result = bring_up(controller, Feet(controller), "lamp")
    assert [check.passed for check in result.checks] == [True, True, True]
    assert [line for line in controller.told() if line.startswith("lamp")] == ["lamp 1", "lamp 0"] * 2


class Feet(Scripted):
    """Someone at the pedal, who works the set-up light."""

    def say(self, text: str) -> None:
        self.lines.append(text)
        if text.startswith("By short presses"):
            self._later((True, 1.2), (False, 0.5))
        elif text.startswith("A short press"):
            self._later((True, 0.2), (False, 0.8), (True, 0.2), (False, 0.3))
        elif text.startswith("Light it once more"):
            self._later((True, 0.2), (False, 0.8), (None, 1.0))

    def _later(self, *moves: tuple[bool | None, float]) -> None:
        def work() -> None:
            for down, span_s in moves:
                if down is None:
                    self._there.foot(down=False, rest=1)
                else:
                    self._there.foot(down=down)
                threading.Event().wait(span_s)

        threading.Event().wait(0.7)
        threading.Thread(target=work, daemon=True).start()


def test_a_board_without_the_firmware_is_told_what_to_do(tmp_path: Path):
    with board(tmp_path) as bare, pytest.raises(InstallError, match="install puts this version"):
        bring_up(bare, Scripted(bare), "display")


def test_what_is_sent_to_the_prompt_names_no_pin_of_the_lamp():
    for module in (parts, pedals, lamp):
        text = Path(module.__file__ or "").read_text(encoding="utf-8")
        assert "LAMP_GATE" not in text and "LAMP_PUMP" not in text


def test_the_outcome_is_added_to_a_file(tmp_path: Path):
    check = bringing_up.Check("pedal", "at rest", True, "0 changes")
    result = bringing_up.BringUp("0102", 1, "1.28.0", NOW, [check])
    path = tmp_path / "new" / "bring-up.jsonl"
    bringing_up.record(result, path)
    bringing_up.record(result, path)
    lines = [json.loads(line) for line in path.read_text().splitlines()]
    assert lines[1]["checks"][0] == {
        "part": "pedal",
        "what": "at rest",
        "passed": True,
        "measured": "0 changes",
    }
    with pytest.raises(InputError, match="another file with record"):
        bringing_up.record(result, tmp_path)
