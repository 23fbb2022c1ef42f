"""Every command of `footlight camera` as it is typed: its examples, its JSON, its errors."""

import json

import pytest
from tests.host import typed

from footlight.cli.camera import ROWS, command

FILE = """
[lens."old portrait lens"]
focal = "210 mm"
openings = { "f/8" = "25.9 mm" }

[light."open shade"]
more = "-1/3 stop"
contrast = -10
known = "measured"
"""
NAMES = list(ROWS)


@pytest.fixture
def case(tmp_path, monkeypatch):
    """A folder with a camera file, and nothing else."""
    (tmp_path / "camera.toml").write_text(FILE, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def asked(line: str) -> str:
    return typed.asked(command, line)


def examples(name: str) -> list[str]:
    return typed.examples(command, name, "footlight camera")


EXAMPLES = [line for name in NAMES for line in examples(name)]


def test_every_command_has_an_example():
    assert [name for name in NAMES if not examples(name)] == []


@pytest.mark.parametrize("line", EXAMPLES)
def test_the_examples_of_the_help_run(case, line):
    assert asked(line).strip()


@pytest.mark.parametrize("line", EXAMPLES)
def test_the_examples_give_json(case, line):
    assert json.loads(asked(f"{line} --json"))


def test_a_card_is_written_and_told(case):
    assert "1 card(s)" in asked("card --file camera.toml --html cards.html")
    assert "old portrait lens" in (case / "cards.html").read_text(encoding="utf-8")
    assert "25.9*" in asked('card "old portrait lens" --file camera.toml')


def test_own_tolerances_change_the_doubt():
    usual, sure = (
        json.loads(asked(f'time "EV 15" f/8 --ei 4 --json {more}'))["uncertainty"]["stops"]
        for more in ("", '--off "reading 0 stop" --off "index 0 stop" --off "stop 0 stop"')
    )
    assert usual > 0.2
    assert sure == 0


def test_the_reading_is_the_same_however_it_is_said():
    times = {
        json.loads(asked(f'time "{reading}" f/16 --ei 4 --json'))["metered_s"]
        for reading in ("EV 12", "10240 lx", "512 cd/m2", "1/16 s, f/16, ISO 100", "EV 7.356144 at EI 4")
    }
    assert max(times) == pytest.approx(min(times), rel=1e-4)


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ('time "EV 12" f/22 --ei 0', "EI 0 is out of range"),
        ('time "EV 12" f/22 --ei fast', "--ei: 'fast' is not an exposure index"),
        ('time "EV 12" f/0.4 --ei 4', "allowed is f/0.5 to f/1024"),
        ('time "EV 12" 22 --ei 4', "STOP: '22' is not an f-number"),
        ('time "12" f/22 --ei 4', "READING: '12' is not a meter reading"),
        ('time "0 lx" f/22 --ei 4', "out of range"),
        ('time "EV 12" f/22 --ei 4 --draw "300 mm"', "--lens is missing"),
        ('time "EV 12" f/22 --ei 4 --image "300 mm"', "both are needed"),
        ('time "EV 12" f/22 --ei 4 --lens "150 mm" --draw "200 mm" --image "1 mm"', "not both"),
        ('time "1/2 s, f/22" f/22 --ei 4', "must have a time, a stop and the meter's index"),
        ('time "EV 12" f/22 --ei 4 --filter yellow', "says nothing of its effect"),
        ('time "EV 12" f/22 --ei 4 --filter "yellow, 1 stop, 20"', "write name, stops and contrast"),
        ('time "EV 12" f/22 --ei 4 --filter "yellow, a lot"', "--filter: "),
        ('time "EV 12" f/22 --ei 4 --range 9', "R 9 is out of range"),
        ('time "EV 12" f/22 --ei 4 --p 3', "--p: '3' is out of range"),
        ('time "EV 12" f/22 --ei 4 --off "weight 3 g"', "--off: 'weight' is not known"),
        ('time "EV 12" f/22 --ei 4 --off "reading -1 stop"', "less than none"),
        ('time "EV 12" f/22 --ei 4 --file none.toml', "none.toml: cannot be read"),
        ('time "20 lx" f/22 --ei 4 -C 3', "constant C: 3 is out of range"),
        ('bellows --lens "150" --draw "300 mm"', "'150' has no unit"),
        ('bellows --lens "-150 mm" --draw "300 mm"', "out of range"),
        ('bellows --lens "150 mm"', "give --lens and --draw"),
        ('bellows "0 s" --lens "150 mm" --draw "300 mm"', "TIME: '0 s' is out of range"),
        ('opening "150 mm" "0 mm"', "out of range"),
        ("card", "LENS is missing"),
        ("card old --file camera.toml", "lens 'old' is not in the camera file"),
        ('card "150 mm" --html nowhere/cards.html', "cannot be written"),
        ('card "150 mm" --pupils 0', "--pupils: '0' is out of range"),
        ("range 900", "R 900 is out of range"),
        ("range wide", "not a plain number"),
    ],
)
def test_one_clear_line_for_bad_input(case, line, says):
    assert says in typed.refused(command, line)
