"""Steps and values of a file moved and written back: what is not meant stays as it is, byte for byte."""

import random
import tomllib
from pathlib import Path

import pytest

from footlight import examples, sequence
from footlight.errors import FootlightError, InputError
from footlight.sequence import arranged
from footlight.sequence.faults import faults
from footlight.sequence.step_keys import KINDS
from footlight.sequence.written_values import values_of, with_values

PRINT = examples.text("reversal-print.toml")
PATH = examples.path("reversal-print")


@pytest.mark.parametrize("name", examples.NAMES)
def test_there_and_back_is_the_same_text(name: str):
    text = examples.text(f"{name}.toml")
    assert with_values(text, values_of(text)) == text
    count = len(tomllib.loads(text)["step"])
    for number, to in ((1, count), (count, 1), (count // 2, count)):
        moved = arranged.moved(text, number, to)
        assert arranged.moved(moved, to, number) == text
        assert sorted(moved.splitlines()) == sorted(text.splitlines())


def test_the_comment_above_a_step_goes_with_it():
    moved = arranged.moved(PRINT, 11, 1)
    second_half = moved.index("# The second half of the fixing")
    assert second_half < moved.index('name = "first developer"')
    assert '"fix, white light"' in moved[second_half : second_half + 200]


def test_steps_and_trays_come_and_go():
    for kind in KINDS:
        steps = tomllib.loads(arranged.with_step(PRINT, kind, 3))["step"]
        assert len(steps) == 14 and steps[3]["kind"] == kind and steps[4]["name"] == "change the rinse"
    assert len(tomllib.loads(arranged.without(PRINT, 13))["step"]) == 12
    assert tomllib.loads(arranged.with_step("title = 'A'", "pause", 0))["step"][0]["kind"] == "pause"
    more = arranged.with_tray(PRINT, "north window")
    assert tomllib.loads(more)["trays"]["north window"] == {}
    assert arranged.without_tray(more, "north window").splitlines() == PRINT.splitlines()
    with pytest.raises(InputError, match="a tray 'fixer' already"):
        arranged.with_tray(PRINT, "fixer")


def test_what_cannot_be_arranged_safely_is_refused():
    inline = (
        'title = "A"\nname = "a"\nstep = [{ kind = "pause", name = "a" }, { kind = "pause", name = "b" }]\n'
    )
    with pytest.raises(InputError, match="by hand"):
        arranged.moved(inline, 1, 2)
    with pytest.raises(InputError, match="no step 14"):
        arranged.moved(PRINT, 14, 1)


def test_one_value_changes_one_line_and_its_comment_stays():
    changed = with_values(PRINT, {("trays.water", "life"): "2 sheets"})
    lines = [
        pair for pair in zip(PRINT.splitlines(), changed.splitlines(), strict=True) if pair[0] != pair[1]
    ]
    assert lines == [
        (
            'life = "one sheet"           # it carries developer; peroxide must not meet it',
            'life = "2 sheets"           # it carries developer; peroxide must not meet it',
        )
    ]
    gone = with_values(PRINT, {("step 1", "lift"): ""})
    assert len(gone.splitlines()) == len(PRINT.splitlines()) - 1 and sequence.load_text(gone, PATH).steps


def test_every_fault_is_told_at_its_place():
    spoilt = PRINT.replace('title = "PRINT"', 'title = "MUCH TOO LONG"').replace(
        'tray = "rinse"', 'tray = "rins"'
    )
    spoilt = spoilt.replace('least = "1:30"', 'least = "9:00"').replace('size = "9.5x12 in"', 'size = "9"', 1)
    spoilt = spoilt.replace('setup = "second"', 'setup = "secund"').replace('time = "4:00"\nnote', "note")
    told = {(fault.table, fault.key) for fault in faults(spoilt, PATH)}
    assert told == {
        ("", "title"),
        ("trays.developer", "size"),
        ("step 3", "least"),
        ("step 4", "tray"),
        ("step 7", "setup"),
        ("step 12", "time"),
    }


def test_faults_and_the_reader_agree_whatever_is_written(tmp_path: Path):
    """A line dropped, doubled or spoilt: where the reader refuses a fault is told, and only there."""
    chance = random.Random(17)
    (tmp_path / examples.SETUPS).write_text(examples.text(examples.SETUPS), encoding="utf-8")
    refused = 0
    for _ in range(150):
        lines = PRINT.splitlines()
        at = chance.randrange(len(lines))
        lines[at] = chance.choice(
            ["", lines[at] * 2, lines[at].replace('"', "", 1), lines[at].replace("1", "99"), "x = 1"]
        )
        text = "\n".join(lines) + "\n"
        try:
            sequence.load_text(text, tmp_path / "print.toml")
            reads = True
        except FootlightError:
            reads = False
        told = faults(text, tmp_path / "print.toml")
        refused += not reads
        # White light before the last light is a matter of several steps: only the whole can tell.
        assert bool(told) == (not reads), (at, lines[at], told)
    assert 30 < refused < 140
