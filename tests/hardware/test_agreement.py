"""What the hardware takes the firmware to do, held against the firmware's own text."""

import re
import tomllib
from pathlib import Path

import pytest
from hardware.budget import display_ma, display_test_ma
from hardware.pins import read_pins
from hardware.spice import checks, lamp

from footlight import sequence

FIRMWARE = Path("firmware")


def text(name: str) -> str:
    return (FIRMWARE / name).read_text(encoding="utf-8")


def test_boot_drives_low_what_the_table_says() -> None:
    match = re.search(r"for _number in \(([\d, ]+)\):", text("boot.py"))
    assert match is not None
    lows = {pin.gpio for pin in read_pins().values() if pin.safe == 0 and pin.edge}
    assert {int(number) for number in match[1].split(",")} == lows


def loop_sides() -> list[int]:
    """The side-set of each instruction of the counting loop, one cycle each."""
    program = text("controller/lamp.py")
    loop = program[program.index('label("tick")') : program.index('label("end")')]
    executed = [line for line in loop.splitlines() if ".side(" in line and 'jmp("end")' not in line]
    found = [re.search(r"\.side\((\d)\)", line) for line in executed]
    return [int(match[1]) for match in found if match]


def test_the_pump_that_is_simulated_is_the_pump_that_the_firmware_makes() -> None:
    """Bit 0 is the gate and stays high; bit 1 is the pump; five cycles make a tick."""
    sides = loop_sides()
    hertz = re.search(r"_HERTZ = const\(([\d_]+)\)", text("controller/lamp.py"))
    assert hertz is not None
    assert len(sides) / int(hertz[1]) == pytest.approx(lamp.TICK_S)
    assert all(side & 1 for side in sides)
    assert sum(side >> 1 for side in sides) / len(sides) == pytest.approx(lamp.Drive("high", "runs").duty)


def test_outside_the_loop_gate_and_pump_are_low() -> None:
    program = text("controller/lamp.py")
    outside = program[program.index("def exposure") : program.index('label("tick")')]
    outside += program[program.index('label("end")') : program.index("class Lamp")]
    assert set(re.findall(r"\.side\((\d)\)", outside)) == {"0"}


def test_lamp_sense_reads_as_lit_where_the_simulation_says() -> None:
    match = re.search(r"_BURNS = const\(([\d_]+)\)", text("footlight_core/sensor.py"))
    assert match is not None
    assert int(match[1]) / 65536 * 3.3 == pytest.approx(checks.SENSE_LIT_V, abs=0.01)
    assert f"_SEEN_MS = const({checks.SENSE_DUE_MS:.0f})" in text("controller/sight.py")


def test_the_brightness_cap_is_the_one_that_the_page_counts_with() -> None:
    assert "INTENSITY_CAP = 3" in text("controller/display.py")
    assert display_ma(3, 1.0) < display_test_ma() / 3


@pytest.mark.parametrize("name", ["fog-test.toml", "bring-up.toml"])
def test_the_sequences_of_the_page_can_be_sent_to_the_controller(name: str) -> None:
    compiled = sequence.compile(sequence.load(Path("hardware") / name))
    assert compiled.data and not compiled.arithmetic


def test_bring_up_closes_the_white_light_contact_in_its_last_step_only() -> None:
    steps = sequence.load(Path("hardware/bring-up.toml")).steps
    assert [step.white for step in steps] == [False] * (len(steps) - 1) + [True]


def test_the_fog_test_rings_at_the_steps_of_the_page() -> None:
    """Steps to 7 minutes: a published fog-test bulletin. To 20: a sheet here is under red light so long."""
    table = tomllib.loads(Path("hardware/fog-test.toml").read_text(encoding="utf-8"))
    timed = next(step for step in table["step"] if step["kind"] == "by hand")
    assert [cue["at"] for cue in timed["cues"]] == ["1:00", "2:00", "4:00", "7:00", "10:00", "15:00"]
    assert timed["time"] == "20:00"
