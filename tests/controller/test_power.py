"""Power cuts and resets: dark at once, said on the next start, never going on by itself."""

import shutil
from pathlib import Path

import pytest
from tests.controller.invariants import Invariants
from tests.controller.stage import (
    BATH,
    INTERPRETERS,
    LIGHT,
    LIGHT_FIRST,
    SHORT_RUN,
    armed,
    channel,
    gate_ms,
    program,
    records,
    send,
    state,
    status,
    switched_on,
)

from footlight.bench import Bench
from footlight.bench import events as ev
from footlight.bench.glyphs import read_text
from footlight.bench.referee import watch

FIRMWARE = Path(__file__).parents[2] / "firmware"


def cut_and_start(bench: Bench, off_ms: float = 1_000) -> None:
    """Power off, power on, and some time to start."""
    bench.cut_power()
    assert not bench.lamp
    bench.run_for(off_ms)
    bench.switch_on()
    bench.run_for(300)


@pytest.mark.parametrize("interpreter", INTERPRETERS)
def test_programs_journal_and_numbers_outlast_the_power(tmp_path: Path, interpreter: str):
    with armed(tmp_path, interpreter=interpreter) as bench:
        bench.hold()
        bench.tap()
        cut_and_start(bench)
        assert status(bench)["run"] == 1
    with Bench(tmp_path, interpreter) as bench:
        bench.switch_on()
        bench.run_for(100)
        assert [record["n"] for record in records(bench)] == [5, 6]
        assert status(bench)["found"] == 0 and state(bench) == "broken"


def test_a_light_cut_off_is_told_with_its_bounds(tmp_path: Path):
    with armed(tmp_path, LIGHT_FIRST) as bench:
        bench.tap()
        bench.run_for(2_000)
        assert bench.lamp
        cut_and_start(bench)
        cut = records(bench, "cut")[-1]
        assert (cut["step"], cut["least_ms"], cut["most_ms"]) == (1, 0, 5_000)
        assert state(bench) == "broken"


def test_the_display_rounds_the_bounds_outwards(tmp_path: Path):
    with armed(tmp_path, program(LIGHT | {"time_ms": 5_030}, BATH)) as bench:
        bench.tap()
        bench.run_for(1_000)
        cut_and_start(bench)
        shown = set()
        for _ in range(100):
            bench.run_for(100)
            shown.add(read_text(bench.screen_rows()))
        assert "0.0-5.1" in shown


def test_after_a_cut_no_light_without_arming_and_a_press(tmp_path: Path):
    with armed(tmp_path, LIGHT_FIRST) as bench:
        watcher = Invariants(bench)
        bench.tap()
        bench.run_for(2_000)
        cut_and_start(bench)
        lights = len(gate_ms(bench))
        bench.run_for(60_000)
        bench.tap()
        bench.run_for(2_000)
        assert len(gate_ms(bench)) == lights, "a short press acknowledges nothing"
        bench.hold()
        bench.run_for(2_000)
        assert len(gate_ms(bench)) == lights and state(bench) == "doubt"
        bench.tap()
        bench.run_for(1_000)
        bench.hold()
        bench.run_for(2_000)
        assert len(gate_ms(bench)) == lights and state(bench) == "ready"
        bench.tap()
        bench.run_for(6_000)
        assert gate_ms(bench)[-1] == 5_050
        assert watcher.broken == []


def test_a_hang_ends_on_time_and_is_told_more_tightly(tmp_path: Path):
    with armed(tmp_path, LIGHT_FIRST) as bench:
        bench.tap()
        bench.run_for(2_000)
        bench.hang()
        bench.run_for(6_000)
        assert gate_ms(bench) == [5_050], "the hardware ends it, processor or not"
        boot = records(bench, "boot")[-1]
        cut = records(bench, "cut")[-1]
        assert boot["reason"] == 1, "a hang"
        given_ms = gate_ms(bench)[0] - 50
        assert 1_700 <= cut["least_ms"] <= given_ms <= cut["most_ms"] <= 5_000
        assert state(bench) == "broken"


def test_a_hang_is_over_within_the_watchdogs_time(tmp_path: Path):
    with switched_on(tmp_path) as bench:
        bench.hang()
        hung_ms = bench.now_ms
        bitten = bench.run_until_event(lambda event: event.kind == ev.RESET, 10_000)
        assert bitten and bitten.t_ms - hung_ms <= 4_500


@pytest.mark.parametrize("kind", [ev.GATE, ev.RECORD, ev.WHITE, ev.KEYBOARD])
def test_cut_at_every_event_of_a_run(tmp_path: Path, kind: str):
    """Power lost right at an event: dark, the journal a prefix, the step known, and no light by itself."""
    for count in range(1, 8):
        with armed(tmp_path / f"{kind}{count}", SHORT_RUN) as bench:
            watcher = Invariants(bench)
            if not run_until_nth(bench, kind, count):
                return
            durable = len(records(bench))
            cut_and_start(bench)
            told = records(bench)
            assert [record["n"] for record in told] == list(range(1, len(told) + 1))
            assert told[durable]["k"] == "boot"
            under_way = [r["k"] for r in told[:durable] if r["k"] in ("arm", "end")][-1:] == ["arm"]
            assert state(bench) == ("broken" if under_way else "idle")
            assert not bench.white
            bench.run_for(5_000)
            assert not bench.lamp and watcher.broken == []


def run_until_nth(bench: Bench, kind: str, count: int) -> bool:
    """Carry the short run on; stop within the firmware at the n-th event of a kind. False = it never came."""
    seen = [0]

    def wanted(event: ev.Event) -> bool:
        seen[0] += event.kind == kind
        return seen[0] == count

    for down in (True, False) * 5:
        bench.contacts(down, not down)
        span_ms = 150 if down else 16_500
        if bench.run_until_event(wanted, span_ms, kind):
            return True
    return False


def test_a_setup_light_cut_off_is_told_once(tmp_path: Path):
    with switched_on(tmp_path) as bench:
        bench.tap()
        bench.run_for(600)
        bench.hold()
        bench.run_for(700)
        bench.tap()
        bench.run_for(500)
        assert bench.lamp
        cut_and_start(bench)
        cut_and_start(bench)
        assert [record["run"] for record in records(bench, "cut")] == [0]
        assert state(bench) == "idle"


def test_a_fresh_file_system_is_said(tmp_path: Path):
    with Bench(tmp_path) as bench:
        bench.switch_on()
        bench.run_for(200)
        shown = bench.screen_rows()
        assert records(bench, "boot")[0]["fresh"] == 1 and status(bench)["found"] == 1
        bench.run_for(5_000)
        assert bench.screen_rows() != shown
    with Bench(tmp_path) as bench:
        bench.switch_on()
        bench.run_for(200)
        assert records(bench, "boot")[0]["fresh"] == 0


def test_a_new_memory_has_a_new_epoch(tmp_path: Path):
    epochs = []
    with Bench(tmp_path) as bench:
        for _ in range(2):
            for memory in ("flash.img", "flash"):
                shutil.rmtree(tmp_path / memory, ignore_errors=True)
                (tmp_path / memory).unlink(missing_ok=True)
            bench.switch_on()
            send(bench, SHORT_RUN, 2)
            greeting = channel(bench).greeting
            epochs.append(greeting and greeting.epoch)
            bench.cut_power()
    assert None not in epochs and epochs[0] != epochs[1]


def test_pedal_held_at_power_up_gives_the_prompt(tmp_path: Path):
    with Bench(tmp_path) as bench:
        bench.press()
        bench.switch_on()
        bench.run_for(10_000)
        assert bench.end and bench.end.kind == ev.PROMPT
        assert not [event for event in bench.events if event.kind == ev.WATCHDOG]
        assert any(any(row) for row in bench.screen_rows()), "it says so"


def test_a_foot_that_is_down_when_the_watchdog_bites_asks_for_nothing(tmp_path: Path):
    with switched_on(tmp_path) as bench:
        bench.press()
        bench.hang()
        bench.run_for(6_000)
        assert bench.is_on and state(bench) == "idle"


@pytest.mark.parametrize("interpreter", INTERPRETERS)
@pytest.mark.parametrize(
    ("file", "breaks"),
    [("store.py", "        files.make(FOLDER)"), ("app.py", "        self._burning = False")],
)
def test_what_cannot_be_built_stays_dark_and_says_so(
    tmp_path: Path, file: str, breaks: str, interpreter: str
):
    broken = shutil.copytree(FIRMWARE, tmp_path / "firmware")
    source = broken / "controller" / file
    source.write_text(source.read_text().replace(breaks, "        raise MemoryError", 1))
    with Bench(tmp_path, interpreter, firmware=[broken]) as bench:
        watch(bench)
        bench.switch_on()
        bench.run_for(10_000)
        assert bench.end and bench.end.kind == ev.DIED and bench.lives == 1
        assert any(any(row) for row in bench.screen_rows()), "it says so"
        assert not [event for event in bench.events if event.kind == ev.WATCHDOG]
        assert not bench.lamp and not bench.white
