"""The app through whole runs: what the foot does, what the gate does, what the journal says."""

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
    gate_ms,
    program,
    records,
    state,
    switched_on,
)

from footlight.bench import Bench
from footlight.bench import events as ev

WRITES = (ev.ERASE, ev.PROGRAM, ev.FORMAT, ev.HEAP, ev.OUT)


def short_run(bench: Bench) -> None:
    """From armed to done: bath, light, bath."""
    bench.tap()
    bench.run_for(16_000)
    bench.tap()
    bench.run_for(1_000)
    bench.tap()
    bench.run_for(6_000)
    bench.tap()
    bench.run_for(16_000)
    bench.tap()
    bench.run_for(2_000)


@pytest.mark.parametrize("interpreter", INTERPRETERS)
@pytest.mark.parametrize("polls", [False, True])
def test_a_whole_run(tmp_path: Path, interpreter: str, polls: bool):
    with armed(tmp_path, SHORT_RUN, interpreter=interpreter, polls=polls) as bench:
        watcher = Invariants(bench)
        short_run(bench)
        assert state(bench) == "done"
        assert bench.white
        assert gate_ms(bench) == [5050]
        assert watcher.broken == []
        told = [record["k"] for record in records(bench)][1:]
    assert told == ["arm", "begin", "step", "intent", "gave", "begin", "step", "end"]


def test_both_interpreters_do_the_same(tmp_path: Path):
    if len(INTERPRETERS) == 1:
        pytest.skip("no MicroPython for this machine: there is nothing to compare with")
    traces = []
    for interpreter in INTERPRETERS:
        with armed(tmp_path / interpreter, SHORT_RUN, interpreter=interpreter) as bench:
            short_run(bench)
            traces.append([(e.t_us, e.kind, e.text) for e in bench.events if e.kind not in WRITES])
    assert traces[0] == traces[1]
    assert len(traces[0]) > 150


def test_a_run_is_the_same_every_time(tmp_path: Path):
    traces = []
    for name in "ab":
        with armed(tmp_path / name, SHORT_RUN) as bench:
            short_run(bench)
            traces.append([event for event in bench.events if event.kind != ev.FORMAT])
    assert traces[0] == traces[1]


def test_ticks_may_wrap_within_a_run(tmp_path: Path):
    spans = []
    for start_us in (0, (1 << 30) * 1000 - 30_000_000):
        with armed(tmp_path / str(start_us), SHORT_RUN, ticks_start_us=start_us) as bench:
            short_run(bench)
            spans.append(([event.t_us for event in bench.events], gate_ms(bench)))
    assert spans[0] == spans[1]


def stop_at(bench: Bench, after_ms: float, *contacts: tuple[float, bool, bool]) -> None:
    """Light the first step, then move the contacts: (ms later, make, rest)."""
    bench.tap()
    bench.run_for(after_ms)
    for span_ms, make, rest in contacts:
        bench.run_for(span_ms)
        bench.contacts(make, rest)


@pytest.mark.parametrize("polls", [False, True])
@pytest.mark.parametrize("between_ms", [0, 1, 4, 9, 15])
@pytest.mark.parametrize("down_ms", [200, 3_000])
def test_the_press_that_stops_means_nothing_more(
    tmp_path: Path, polls: bool, between_ms: float, down_ms: float
):
    """A changeover contact leaves rest some ms before it makes: that is one press, not a stop and a press."""
    with armed(tmp_path, LIGHT_FIRST, polls=polls) as bench:
        way = (0, False, False), (between_ms, True, False), (down_ms, False, False), (between_ms, False, True)
        stop_at(bench, 2_003.7, *way)
        bench.run_for(1_000)
        assert state(bench) == "held"
        gave = records(bench, "gave")[-1]
        assert gave["how"] == "held" and abs(gave["gate_ms"] - gate_ms(bench)[0]) <= 1
        assert gave["light_ms"] == gave["gate_ms"] - 50
        bench.tap()
        bench.run_for(4_000)
        assert sum(gate_ms(bench)) == pytest.approx(5_100, abs=2)
        assert records(bench, "gave")[-1]["how"] == "whole"


def test_a_touch_stops_within_a_tick_of_the_gate(tmp_path: Path):
    with armed(tmp_path, LIGHT_FIRST) as bench:
        stop_at(bench, 1_000.003, (0, False, False))
        pressed_us = bench.now_us
        bench.run_for(50)
        fell_us = [event.t_us for event in bench.events if event.kind == ev.GATE][-1]
    assert 0 <= fell_us - pressed_us <= 10


def test_release_to_light_takes_no_longer_than_the_integrator(tmp_path: Path):
    with armed(tmp_path, LIGHT_FIRST, polls=True) as bench:
        bench.press()
        bench.run_for(155)
        bench.release()
        released_us = bench.now_us
        bench.run_for(200)
        rose_us = [event.t_us for event in bench.events if event.kind == ev.GATE and event.value][-1]
    assert rose_us - released_us <= 40_000


def test_a_foot_that_stays_down_lights_nothing(tmp_path: Path):
    with armed(tmp_path, LIGHT_FIRST) as bench:
        bench.press()
        bench.run_for(7_000)
        bench.release()
        bench.run_for(1_000)
        assert gate_ms(bench) == [] and state(bench) == "menu"


def test_two_taps_are_one_start(tmp_path: Path):
    with armed(tmp_path, program(BATH, LIGHT)) as bench:
        bench.tap(80)
        bench.tap(80)
        bench.run_for(1_000)
        assert [record["step"] for record in records(bench, "begin")] == [1]


def test_the_setup_light(tmp_path: Path):
    with switched_on(tmp_path) as bench:
        bench.tap()
        bench.run_for(600)
        bench.hold()
        bench.run_for(700)
        bench.tap()
        bench.run_for(3_000)
        assert bench.lamp
        bench.tap()
        bench.run_for(1_000)
        assert not bench.lamp
        assert records(bench, "focus")[-1]["gate_ms"] == pytest.approx(gate_ms(bench)[0], abs=1)
