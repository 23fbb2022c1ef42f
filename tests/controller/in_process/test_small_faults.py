"""Small faults that a stranger planted and no test of ours noticed: each is held by a case here.

Those of recovery are in core/case_recovery.py and in ../test_rest.py.
"""

from types import SimpleNamespace
from typing import Any

import pytest
from tests.controller.in_process import rest
from tests.controller.in_process.box import GATE, PUMP, REST, Box
from tests.controller.in_process.test_journal import end, opened

from controller import screens
from controller.sound import SOUNDS, Sound
from footlight_core import effects as fx
from footlight_core import states as st
from footlight_core.run import Ledger


def lit(brightness: int) -> tuple[int, int]:
    """How bright the display is ready for a light, and lit."""
    life = rest.Life(("light", "bath"), rest.random.Random(1))
    life.seq.ledger.brightness = brightness
    while life.seq.state != st.READY:
        life.event(st.LONG, 2_000)
    ready = screens.screen(life.seq, life.now_ms)[2]
    life.event(st.SHORT, 2_000)
    assert life.seq.state == st.LIT
    return ready, screens.screen(life.seq, life.now_ms)[2]


@pytest.mark.parametrize(("brightness", "wanted"), [(0, (0, 0)), (1, (1, 1)), (2, (2, 1)), (3, (3, 1))])
def test_the_display_is_dimmest_while_lit(brightness: int, wanted: tuple[int, int]):
    assert lit(brightness) == wanted


def test_over_time_counts_on_past_ten_minutes():
    life = rest.Life(("plain bath", "bath"), rest.random.Random(1))
    while life.seq.state != st.READY:
        life.event(st.LONG, 2_000)
    life.event(st.SHORT, 2_000)
    for over_ms, said in ((12_000, "+0:12"), (599_000, "+9:59"), (665_000, "+11:05"), (3_605_000, "+60:05")):
        until_ms = life.seq.run.start_ms + 20_000 + over_ms
        life.pass_time(until_ms - life.now_ms)
        assert screens.screen(life.seq, life.now_ms)[0] == said


def test_the_last_run_is_told_from_its_arming_on(flash: Any):
    """A step's beginning is not a run's: the newest files hold many of those, and more than ten minutes."""
    notes = opened()
    arm = {"k": "arm", "run": 2, "slot": 1, "sha": "ab", "title": "T", "sheet": 1, "sheets": 1}
    notes.append(end(1), 0)
    notes.append(arm, 1)
    for count in range(400):
        notes.append({"k": "begin", "run": 2, "step": 1 + count % 9, "sheet": 1}, 2 + count * 5_000)
    told = [record["k"] for record in notes.recent()]
    assert "arm" in told


class Buzzer:
    """Keeps the note that it was last told."""

    def __init__(self) -> None:
        self.hertz = self.duty = 0

    def freq(self, hertz: int) -> None:
        self.hertz = hertz

    def duty_u16(self, duty: int) -> None:
        self.duty = duty


def test_a_wash_is_heard_over_every_other_sound():
    for other in SOUNDS:
        buzzer = Buzzer()
        sound = Sound(buzzer)
        sound.play(other, 0)
        sound.play(fx.WASH, 10)
        assert (buzzer.hertz, buzzer.duty > 0) == (SOUNDS[fx.WASH][0][0], True), other


def test_a_press_that_becomes_long_is_heard():
    buzzer = Buzzer()
    sound = Sound(buzzer)
    sound.play(fx.COUNTS, 0)
    assert buzzer.duty and buzzer.hertz == SOUNDS[fx.COUNTS][0][0]


@pytest.mark.parametrize(("stop_us", "gate_ms"), [(50_300, 50), (50_700, 51), (50_470, 50), (50_530, 51)])
def test_the_gate_time_is_rounded_to_the_nearest(box: Box, stop_us: int, gate_ms: int):
    lamp = box.controller("lamp").Lamp(box.rp2, box.machine.Pin, GATE, PUMP, REST)
    lamp.start(100)
    box.time.spend_us(stop_us)
    box.foot(True)
    box.wait_ms(1)
    assert lamp.read_gate_ms() == gate_ms


def test_another_program_in_the_slot_is_not_taken_for_the_one_that_was_cut_off():
    life = rest.Life(("light", "bath"), rest.random.Random(1))
    while life.seq.state != st.READY:
        life.event(st.LONG, 2_000)
    life.cut()
    other = "cd" * 32
    shelf: Any = SimpleNamespace(entries=lambda: ((1, other, "OTHER"),))
    life.memory.entries = shelf.entries
    life.memory.load = lambda slot, sha: life.memory.loaded if sha == other else None
    life.start()
    assert life.seq.state == st.BROKEN and not life.seq.run.program
    life.event(st.LONG, 2_000)
    assert life.seq.state == st.IDLE and life.memory.lines[-1]["how"] == "broken"


def test_a_ledger_that_is_older_than_the_journal():
    """A whole one, as a flash may give back: numbers go on after those of the journal."""
    life = rest.Life(("light",), rest.random.Random(1))
    kept = dict(life.memory.kept)
    while life.seq.state != st.READY:
        life.event(st.LONG, 2_000)
    life.cut()
    life.memory.kept = kept
    life.start()
    assert (life.seq.ledger.next_run, life.seq.ledger.next_sheet) == (2, 2)


def test_a_lost_ledger_goes_on_after_every_record_that_is_left():
    """Also where the last run was for an older sheet, and numbers stand in no arming."""
    rows: list[dict[str, Any]] = [
        {"k": "intent", "run": 8, "step": 1, "sheet": 9},
        {"k": "boot", "reason": 0},
        {"k": "arm", "run": 7, "sheet": 3},
    ]
    ledger = Ledger()
    rest.boot_run._raise(ledger, SimpleNamespace(everything=lambda: iter(rows)))
    assert (ledger.next_run, ledger.next_sheet) == (9, 10)
