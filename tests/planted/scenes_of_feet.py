"""Scenes of feet: what a pedal and whoever stands on it may do."""

from pathlib import Path

from tests.controller.stage import BATH, LIGHT, gate_ms, program, records, status
from tests.planted.setting import Options, lit, on_stage, state

from footlight.bench import Bench
from footlight_core import states as st


def a_whole_print(folder: Path, options: Options) -> None:
    """A light stopped and resumed, a bath, a judged step, a light, a bath with white light."""
    with on_stage(folder, options) as bench:
        lit(bench)
        bench.tap()
        assert state(bench) == "held"
        bench.run_for(700)
        bench.tap(80)
        bench.run_for(5_000)
        assert abs(sum(gate_ms(bench)) - 5_100) < 1
        _after_the_light(bench)
        assert bench.white and state(bench) == "done"
        assert [record["how"] for record in records(bench, "gave")] == ["held", "whole", "whole"]
        assert [record["step"] for record in records(bench, "begin")] == [2, 3, 5]
        assert abs(records(bench, "step")[0]["real_ms"] - 16_150) < 300
        assert len(bench.screen_rows()) == 8 and any(map(any, bench.screen_rows()))


def _after_the_light(bench: Bench) -> None:
    assert not bench.white
    for span_ms in (16_000, 4_000, 1_000, 3_000, 17_000):
        bench.tap()
        bench.run_for(span_ms)
    bench.tap()


def a_double_tap(folder: Path, options: Options) -> None:
    """Two quick taps are one start; a stop right after a start is a stop."""
    with on_stage(folder, options, program(BATH, BATH | {"name": "stop"}, LIGHT)) as bench:
        bench.run_for(700)
        bench.tap(80)
        bench.tap(80)
        bench.run_for(16_000)
        bench.tap(80)
        bench.tap(80)
        bench.run_for(1_000)
        assert [record["step"] for record in records(bench, "begin")] == [1, 2]
        assert records(bench, "step")[0]["how"] == "pedal"
    with on_stage(folder / "b", options) as bench:
        lit(bench, 120)
        bench.press()
        bench.run_for(50)
        assert not bench.lamp
        bench.release()
        bench.run_for(600)
        assert state(bench) == "held"


def an_old_release(folder: Path, options: Options) -> None:
    """A release that a busy processor saw too late lights nothing; one seen soon enough does."""
    with on_stage(folder, options) as bench:
        for span_ms in (300, 1_500, 100):
            assert state(bench) == "ready"
            bench.run_for(700)
            bench.press()
            bench.run_for(600)
            bench.pause(span_ms)
            bench.run_for(10)
            bench.release()
            bench.run_for(span_ms + 60)
        assert len(gate_ms(bench)) == 0 and bench.lamp


def a_frightened_foot(folder: Path, options: Options) -> None:
    """The foot stays down on a light: off, held, nothing abandoned; the dead time gave nothing."""
    with on_stage(folder, options) as bench:
        lit(bench)
        bench.hold(3_000)
        bench.run_for(1_000)
        assert state(bench) == "held"
        bench.run_for(700)
        bench.tap(40)
        bench.press()
        bench.run_for(200)
        bench.release()
        bench.run_for(1_000)
        assert state(bench) == "held"
        assert all(record["light_ms"] == max(0, record["gate_ms"] - 50) for record in records(bench, "gave"))


def bouncing(folder: Path, options: Options) -> None:
    """A press that bounces for some milliseconds, both ways, is one press; a touch of 10 ms is none."""
    short = BATH | {"time_ms": 5_000, "lift_ms": 4_000}
    with on_stage(folder, options, program(short, BATH, LIGHT)) as bench:
        bench.run_for(1_000)
        for _ in range(3):
            bench.press()
            bench.run_for(10)
            bench.release()
            bench.run_for(400)
        assert state(bench) == "ready"
        for down in (True, False, True, False, True):
            bench.contacts(down, not down)
            bench.run_for(3)
        bench.run_for(150)
        for down in (False, True, False, True, False):
            bench.contacts(down, not down)
            bench.run_for(3)
        bench.run_for(200)
        assert state(bench) == "bath"


def bad_pedals(folder: Path, options: Options) -> None:
    """A wire that is off, a wet pedal, a stuck one: a fault each, and no light from any."""
    with on_stage(folder, options) as bench:
        lit(bench)
        bench.contacts(False, False)
        bench.run_for(400)
        assert not bench.lamp and status(bench)["fault"] == st.PEDAL_WIRE
        bench.release()
        bench.run_for(700)
        bench.hold()
        bench.run_for(700)
        for _ in range(20):
            bench.contacts(True, False)
            bench.run_for(35)
            bench.release()
            bench.run_for(35)
        assert status(bench)["fault"] == st.WET_PEDAL
    with on_stage(folder / "b", options) as bench:
        bench.press()
        bench.run_for(11_000)
        assert status(bench)["fault"] == st.STUCK_PEDAL
