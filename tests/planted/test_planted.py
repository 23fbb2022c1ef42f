"""Every planted bug is caught; the firmware without one passes all that catches them."""

from pathlib import Path

import pytest
from tests.emulated import gate_program
from tests.emulated import test_gate_program as gate
from tests.planted.bugs import BUGS, GATE_BUGS, Bug
from tests.planted.copies import catches, copy_with


def test_the_firmware_as_it_is_passes(tmp_path: Path):
    assert catches(copy_with(None, tmp_path), None, tmp_path) is None


@pytest.mark.parametrize("bug", BUGS, ids=lambda bug: bug.what)
def test_a_planted_bug_is_caught(tmp_path: Path, bug: Bug):
    assert catches(copy_with(bug, tmp_path), bug, tmp_path), f"survived: {bug.what}"


def behaves() -> None:
    """What the gate's program must do on the PIO emulator, apart from its very opcodes."""
    gate.test_exact(100)
    gate.test_pump_is_a_square_wave_of_one_period_a_tick()
    gate.test_pedal_ends_it_within_a_tick(250)
    gate.test_a_word_ends_it_and_is_no_second_exposure(3000, 700)
    gate.test_a_second_time_queued_at_the_start_is_never_a_second_exposure()
    gate.test_words_that_come_after_the_end_stay_where_they_are(2)
    gate.test_pedal_down_at_the_start_gives_no_edge_at_all()
    gate.test_no_ticks_gives_no_edge_and_not_the_longest_light()
    gate.test_more_than_24_bits_cannot_be_counted(0x01000001)
    gate.test_nothing_but_the_loop_drives_anything()


@pytest.mark.parametrize("bug", GATE_BUGS, ids=lambda bug: bug.what)
def test_a_bug_in_the_gate_program_is_caught(tmp_path: Path, bug: Bug, monkeypatch: pytest.MonkeyPatch):
    behaves()
    monkeypatch.setattr(gate_program, "LAMP", copy_with(bug, tmp_path) / bug.file)
    assert gate_program.opcodes() != gate.BY_HAND
    with pytest.raises((AssertionError, IndexError, RuntimeError)):
        behaves()


def test_there_are_enough():
    assert len({bug.what for bug in BUGS + GATE_BUGS}) >= 40
