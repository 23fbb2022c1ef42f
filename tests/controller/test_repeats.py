"""The bench's own faults do what they say, and the same seed gives the same events, to the microsecond."""

import random
from pathlib import Path

import pytest
from tests.controller.stage import INTERPRETERS, LIGHT_FIRST, armed, gate_ms, status, switched_on
from tests.soak import mishaps

from footlight.bench import events as ev
from footlight.bench.referee import watch
from footlight_core import states as st

ON_FLASH = pytest.mark.skipif("micropython" not in INTERPRETERS, reason="no flash without MicroPython here")


def events_of(folder: Path, seed: int) -> list[ev.Event]:
    """A few minutes of mishaps."""
    dice = random.Random(seed)
    with armed(folder) as bench:
        for action in (mishaps.blocks_go_bad, mishaps.pause, mishaps.print_on, mishaps.lose_power_in_a_write):
            action(bench, dice)
        bench.run_for(20_000)
        return bench.events


def test_a_seed_is_all_that_a_run_depends_on(tmp_path: Path):
    first, again, other = (events_of(tmp_path / name, seed) for name, seed in (("a", 3), ("b", 3), ("c", 4)))
    assert first == again and first != other


@pytest.mark.parametrize("interpreter", INTERPRETERS)
def test_a_pause_moves_no_end_of_a_light(tmp_path: Path, interpreter: str):
    with armed(tmp_path, LIGHT_FIRST, interpreter=interpreter) as bench:
        referee = watch(bench, "pause")
        bench.tap()
        bench.run_for(4_900)
        bench.pause(300)
        bench.run_for(2_000)
        assert gate_ms(bench) == [5_050]
        assert [event.value for event in bench.events if event.kind == ev.PAUSE] == [300_000]
        referee.finish()


def test_a_foot_that_moves_within_a_pause_is_seen_at_its_end(tmp_path: Path):
    with armed(tmp_path, LIGHT_FIRST) as bench:
        bench.pause(100, ev.FRAME)
        assert bench.run_until_event(lambda event: event.kind == ev.PAUSE, 2_000, ev.PAUSE)
        bench.run_for(10)
        bench.tap()
        assert bench.lamp


def test_a_press_within_a_pause_ends_the_light_at_once(tmp_path: Path):
    with armed(tmp_path, LIGHT_FIRST) as bench:
        bench.tap()
        bench.run_for(2_000)
        bench.pause(300)
        bench.run_for(100)
        bench.press()
        bench.run_for(1)
        assert not bench.lamp
        bench.run_for(500)


@ON_FLASH
def test_a_worn_flash_is_a_fault_and_stays_worn_without_power(tmp_path: Path):
    with armed(tmp_path, LIGHT_FIRST) as bench:
        bench.wear_out(*range(2, 352))
        bench.cut_power()
        bench.switch_on()
        bench.run_for(2_000)
        assert status(bench)["fault"] == st.NO_RECORD


@ON_FLASH
def test_an_interrupted_run_is_shown_although_the_start_cannot_be_written(tmp_path: Path):
    with armed(tmp_path, LIGHT_FIRST) as bench:
        bench.tap()
        bench.run_for(2_000)
        bench.wear_out(*range(352))
        bench.cut_power()
        bench.switch_on()
        bench.run_for(2_000)
        assert status(bench)["fault"] == st.NO_RECORD and status(bench)["run"] == 1
        bench.wear_out()
        bench.hold()
        bench.run_for(700)
        assert status(bench)["state"] == "broken"


@ON_FLASH
def test_a_full_flash_arms_nothing_until_there_is_room(tmp_path: Path):
    with switched_on(tmp_path, LIGHT_FIRST) as bench:
        written = [event for event in bench.events if event.kind in (ev.ERASE, ev.PROGRAM)]
        bench.tell_box("flash fill 0")
        bench.run_for(100)
        assert written == [event for event in bench.events if event.kind in (ev.ERASE, ev.PROGRAM)]
        bench.hold()
        bench.run_for(700)
        assert status(bench)["state"] == "idle"
        bench.tell_box("flash fill -1")
        bench.hold()
        bench.run_for(700)
        assert status(bench)["state"] == "pick"
