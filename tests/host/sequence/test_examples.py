"""The three shipped sequences: whole, within the lamp's limits, and marked as invented."""

import json

import pytest
from click.testing import CliRunner

from footlight import examples, sequence
from footlight.cli.main import group
from footlight.errors import InputError
from footlight_core import program


@pytest.mark.parametrize("name", examples.NAMES)
def test_example(name: str):
    made = sequence.compile(sequence.load(examples.path(name)))
    assert program.parse(made.data) == made.program
    assert "invented" in examples.text(f"{name}.toml")
    assert made.arithmetic


def test_files_beside_them():
    assert set(examples.NAMES) == {path.stem for path in examples.path("pre-flash").parent.glob("*.toml")} - {
        "light-setups"
    }


def test_the_print_takes_about_a_quarter_of_an_hour():
    made = sequence.compile(sequence.load(examples.path("reversal-print")))
    ends_ms = max(span.end_ms for span in sequence.timeline(made))
    assert 14 * 60_000 <= ends_ms <= 17 * 60_000
    (light,) = made.arithmetic
    assert light.text == "6.0 s at 620 mm f/11 → 10.0 s at 800 mm f/11, ± 0.02 stop"


def test_no_white_light_before_the_sheet_is_fixed_for_a_while():
    for name in ("reversal-print", "second-exposure-strip"):
        made = sequence.compile(sequence.load(examples.path(name)))
        first = program.white_from(made.program)
        before = [step["name"] for step in made.program["steps"][:first]]
        assert before[-1] == "fix" and made.program["steps"][first]["place"] == "7"


def test_the_strip_steps_in_thirds_and_ends_with_ten_times():
    made = sequence.compile(sequence.load(examples.path("second-exposure-strip")))
    lights_s = [light.time_ms / 1000 for light in made.arithmetic]
    totals_s = [sum(lights_s[: place + 1]) for place in range(len(lights_s))]
    assert totals_s == pytest.approx([3.780, 4.762, 6, 7.560, 9.524, 60], abs=0.003)
    assert not made.warnings


def test_the_marks_of_the_strip_are_those_of_its_blade():
    """254 mm in seven bands, blade 30 mm and lens 620 mm above the sheet: 127 + (edge - 127) · 590/620."""
    made = sequence.load(examples.path("second-exposure-strip"))
    notes = [step.note for step in made.steps if step.kind == "light"]
    for number, note in enumerate(notes, start=1):
        edge_mm = 254 * number / 7
        assert f"mark {number}, {127 + (edge_mm - 127) * 590 / 620:.1f} mm" in note


def run(*arguments: str):
    return CliRunner().invoke(group, arguments)


def test_new_then_plan(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    for name in examples.NAMES:
        assert name in run("new").output
        assert run("new", name).exit_code == 0
        assert run("plan", f"{name}.toml").exit_code == 0


def test_new_overwrites_nothing(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "light-setups.toml").write_text("mine")
    assert "left as it is" in run("new", "pre-flash", "mine.toml").output
    assert (tmp_path / "light-setups.toml").read_text() == "mine"
    found = run("new", "pre-flash", "mine.toml")
    assert isinstance(found.exception, InputError) and "is there already" in str(found.exception)
    found = run("new", "pre-flash", "no/such/folder.toml")
    assert isinstance(found.exception, InputError) and "no such file" in str(found.exception)


def test_plan_says_what_a_printer_needs():
    shown = run("plan", str(examples.path("reversal-print"))).output
    for words in (
        "PRINT  reversal print",
        "3      B      acid peroxide bleach",
        "6.0 s at 620 mm f/11 → 10.0 s at 800 mm f/11, ± 0.02 stop, mostly long-exposure behaviour"
        " (p 1 ± 0.02)",
        "agitate first 30 s then 5 s every 30 s",
        "white light from step 11 'fix, white light' on, at 10:55",
        "one sheet 11:55",
        "ends at 15:55",
        "0:20 DUMP",
        "Never together: ",
        "In an eye: white light on",
    ):
        assert words in shown


def test_plan_of_a_batch():
    shown = run("plan", str(examples.path("pre-flash"))).output
    assert "a batch of 8 sheets" in shown and "8 sheets 0:20" in shown and "no white light" in shown


def test_plan_as_json():
    found = json.loads(run("plan", str(examples.path("reversal-print")), "--json", "--judged", "most").output)
    assert found["totals"] == {
        "sheet_ms": 790_050,
        "aside_ms": 1_030_050,
        "run_ms": 790_050,
        "least_ms": 640_050,
        "most_ms": 790_050,
        "white_step": 11,
        "white_ms": 730_050,
    }
    assert found["lights"][0]["exposure"]["uncertainty"]["stops"] == pytest.approx(0.019, abs=0.001)
    assert [tray["place"] for tray in found["trays"]] == list("12345678")
    assert len(found["spans"]) == len(found["steps"]) == 13
