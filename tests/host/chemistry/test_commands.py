"""Every command of `footlight mix` as it is typed: its examples, its JSON, its errors, its safety text."""

import json
import re
import subprocess
import sys

import pytest
from tests.host import typed

from footlight.chemistry import shelf
from footlight.cli.mix import ROWS, command
from footlight.errors import FootlightError

NAMES = list(ROWS)


@pytest.fixture
def room(tmp_path, monkeypatch):
    """A folder with a bleach of one's own, and nothing else."""
    (tmp_path / "my-bleach.toml").write_text(shelf.text("peroxide-bleach"), encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def asked(line: str) -> str:
    return typed.asked(command, line)


def examples(name: str) -> list[str]:
    return typed.examples(command, name, "footlight mix")


EXAMPLES = [line for name in NAMES for line in examples(name)]


def test_every_command_has_an_example():
    assert [name for name in NAMES if not examples(name)] == []


@pytest.mark.parametrize("line", EXAMPLES)
def test_the_examples_of_the_help_run(room, line):
    assert asked(line).strip()


@pytest.mark.parametrize("line", EXAMPLES)
def test_the_examples_give_json(room, line):
    assert json.loads(asked(f"{line} --json"))


# A mix never comes without its safety text: every command that computes one.
@pytest.mark.parametrize(
    "line", [line for line in EXAMPLES if re.match("dilute|peroxide|strength|citric|bath", line)]
)
def test_a_mix_always_comes_with_its_hazards(room, line):
    text = asked(line)
    assert "Safety: " in text
    for heading in ("Hazard", "Wear", "Keep", "Waste", "Rules", "Local rules"):
        assert heading in text
    assert json.loads(asked(f"{line} --json"))["safety"]


def test_what_several_share_is_told_once():
    text = asked('peroxide "10 % w/w" "1 L" --stock "30 % w/w"')
    assert text.count("Safety: ") == 2
    assert text.count("NEVER in a sealed bottle") == 1


def test_both_readings_of_a_dilution():
    text = asked('dilute "1 + 9" "1 L"')
    assert "100 mL of stock + 900 mL of water = 1000 mL: 1 + 9 (1 in 10)" in text
    assert "Read as '1 in 9' it would be 111 mL of stock, 11.1 % too much." in text
    assert "Read as" not in asked('dilute "1 in 10" "1 L"')


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ('dilute "1:9" "1 L"', "read two ways"),
        ('dilute "1 + 9" "1"', "VOLUME: '1' has no unit"),
        ('dilute "1 + 9" "0 L"', "out of range"),
        ('dilute "1 + 9"', "just one"),
        ('dilute "1 + 9" "1 L" --left "20 mL"', "just one"),
        ('dilute "1 + 9" --tray "9.5x12 in" --depth "0 mm"', "out of range"),
        ('dilute "1 + 9" "5 L" --tray "9.5x12 in" --rim "60 mm"', "it takes at most"),
        ('dilute "1 + 9" "5 L" --tray "9.5x12 in" --depth "9 mm"', "give one of them"),
        ('dilute "1 + 9" "5 L" --rim "60 mm"', "inner size too"),
        ('which "0 mL" "5 mL"', "out of range"),
        ('which "37 mL" "20 mL" --made-up', "less than none"),
        ('tray "26 x 31" "5 mm"', "SIZE: "),
        ('tray "26 x 31 cm" "5"', "AMOUNT: '5' has no unit"),
        ('tray "26 x 31 cm" "5 L" --rim "55 mm"', "it takes at most 3224 mL"),
        ('tray "26 x 31 cm" "1 L" --rim "9 mm"', "leaves no depth"),
        ('peroxide "40 % w/w" "1 L" --stock "35 % w/w"', "more than the stock has"),
        ('peroxide "40 %" "1 L" --stock "35 % w/w"', "does not say by what"),
        ('peroxide "101 % w/w" "1 L" --stock "35 % w/w"', "up to 100 % w/w"),
        ('peroxide "10 % w/w" "1 L" --stock "60 % w/w"', "outside the density table"),
        ('peroxide "10 % w/w" --stock "30 % w/w"', "just one"),
        ('strength "30 % w/w, 5 mL" "water"', "part 2: 'water' does not say how much of what"),
        ('strength "water, 5 mL"', "water alone"),
        ('strength "99 % w/w"', "outside the density table"),
        ('citric "20" monohydrate', "MASS: '20' has no unit"),
        ('citric "20 g" wet', "FORM: 'wet' is not known"),
        ('bath fixr "1 L"', "did you mean 'fixer'?"),
        ("bath fixer", "give a volume"),
        ('bath peroxide-bleach "1 L"', "strength of the peroxide bottle is not given"),
        ('bath nowhere.toml "1 L"', "nowhere.toml: cannot be read"),
        ('bath fixer "1 L" --citric dry', "--citric: 'dry' is not known"),
        ("formulas fixr", "did you mean 'fixer'?"),
        ('capacity soup "1 L"', "KIND: 'soup' is not known"),
        ('capacity fixer "1 L" --sheets=-1', "out of range"),
        ('capacity fixer "1 L" --per-litre 15', "'15' is no range"),
        ('capacity fixer "1 L" --fresh "1:00"', "both times"),
        ('hazards "hydrogen peroxide"', "depend on its strength"),
        ('hazards "hydrogen peroxide, 30 %"', "does not say by what"),
    ],
)
def test_one_clear_line_for_bad_input(room, line, says):
    assert says in typed.refused(command, line)


def test_a_formula_with_a_wrong_key_names_its_line(room):
    text = shelf.text("fixer").replace("mass =", "mas =", 1)
    (room / "bad.toml").write_text(text, encoding="utf-8")
    with pytest.raises(FootlightError, match=r"bad.toml: ingredient 1: mas .*did you mean 'mass'\?"):
        asked('bath bad.toml "1 L"')


# Scalar commands load nothing heavy.
@pytest.mark.parametrize(
    "words",
    [
        ["mix", "peroxide", "10 % w/w", "1 L", "--stock", "30 % w/w"],
        ["mix", "dilute", "1 + 9", "1 L"],
        ["camera", "time", "EV 12", "f/22", "--ei", "4"],
        ["camera", "card", "150 mm"],
    ],
)
def test_scalar_commands_stay_light(words):
    code = (
        "import sys\nfrom footlight.cli.main import run\n"
        f"sys.argv = ['footlight', *{words!r}]\n"
        "run()\n"
        "heavy = {'numpy', 'scipy', 'matplotlib', 'PIL', 'msgspec', 'rich', 'serial'} & set(sys.modules)\n"
        "sys.exit(f'loaded {heavy}' if heavy else 0)\n"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
