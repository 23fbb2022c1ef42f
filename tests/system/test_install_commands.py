"""`footlight install` and `footlight bringup` as they are typed, on a board behind a pty."""

import json
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from tests.host.install.boards import HAS_BOARD, Board, board
from tests.system.wires import tool

from footlight.cli.main import group
from footlight.install import facts, image, parts
from footlight.views.installation import UDEV_RULE

needs_board = pytest.mark.skipif(not HAS_BOARD, reason="no MicroPython for this system")


@pytest.fixture
def controller(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Board]:
    monkeypatch.setattr(facts, "PLATFORM", sys.platform)
    monkeypatch.setattr(facts, "CHIP", sys.platform)
    monkeypatch.setattr(parts, "_LEVEL_MS", 10)
    with board(tmp_path / "board") as made:
        made.hold(image.image(6))
        yield made


def run(*words: object, answers: str = "") -> Result:
    return CliRunner().invoke(group, [str(word) for word in words], input=answers)


def test_the_rule_can_be_piped_to_where_it_belongs(tmp_path: Path):
    said = tool("install", "--udev-rule", home=tmp_path)
    assert (said.code, said.out, said.err) == (0, UDEV_RULE + "\n", "")


def test_no_such_port_is_one_line(tmp_path: Path):
    said = tool("install", "--port", tmp_path / "nowhere", home=tmp_path)
    assert said.code == 5 and said.err.splitlines()[-1].endswith("'footlight find' lists what is there")


@needs_board
def test_install_for_a_script_and_for_a_person(controller: Board):
    (controller.files / "controller/font.mpy").unlink()
    done = run("install", "--port", controller.port, "--json")
    assert done.exit_code == 0, done.output
    said = json.loads(done.stdout)
    assert (said["controller"], said["agreed"], said["compiled"]) == ("0102030405060708", True, True)
    assert sorted(said["written"]) == ["controller/font.mpy", "main.py"]
    again = run("install", "--port", controller.port)
    assert "no change; 0 sequences kept" in again.stdout and "footlight bringup" in again.stdout
    assert again.stderr.splitlines()[0] == "asking for the board's prompt"


@needs_board
def test_bringup_asks_records_and_says_what_is_bad(controller: Board, tmp_path: Path):
    path = tmp_path / "outcome.jsonl"
    words = ("bringup", "--port", controller.port, "--part", "display", "--record", path)
    good = run(*words, answers="y\ny\ny\n")
    assert good.exit_code == 0 and good.stdout.count("good") == 3, good.output
    bad = run(*words, answers="y\nn\nskip\n")
    assert bad.exit_code == 1 and "BAD" in bad.stdout and "left out" in bad.stdout
    kept = [json.loads(line) for line in path.read_text().splitlines()]
    assert [check["passed"] for check in kept[1]["checks"]] == [True, False, None]
