"""Scenes of lights: power, processor and lamp fail, and too much light is asked for."""

import contextlib
from pathlib import Path

from tests.controller.stage import BATH, LAMP, LIGHT, channel, gate_ms, program, records, send, status
from tests.planted.setting import Options, leave, light, lit, on_stage, state

from footlight.bench import Bench
from footlight.bench import events as ev
from footlight.link.errors import RefusedError
from footlight_core import states as st


def power_goes(folder: Path, options: Options) -> None:
    """Power is cut in a light: dark, the step and bounds told, nothing by itself, the same step again."""
    with on_stage(folder, options) as bench:
        _give_first_light(bench)
        for span_ms in (16_000, 4_000):
            bench.run_for(span_ms)
            bench.tap()
        bench.run_for(300)
        assert state(bench) == "ready"
        lit(bench, 1_000)
        bench.cut_power()
        bench.switch_on()
        bench.run_for(1_000)
        assert state(bench) == "broken" and not bench.white
        cut = records(bench, "cut")[-1]
        assert (cut["step"], cut["least_ms"], cut["most_ms"]) == (4, 0, 2_000)
        bench.tap()
        assert state(bench) == "broken"
        _give_up_to_the_whole(bench)
        assert (status(bench)["step"], status(bench)["left_ms"]) == (4, 2_000)
        bench.tap()
        bench.run_for(3_000)


def _give_up_to_the_whole(bench: Bench) -> None:
    """From a light that may have had all or nothing: the second of the two entries."""
    bench.hold()
    bench.run_for(700)
    assert state(bench) == "doubt"
    bench.tap()
    bench.run_for(700)
    bench.hold()
    bench.run_for(700)
    assert state(bench) == "ready"


def _give_first_light(bench: Bench) -> None:
    light(bench, 6_000)
    bench.tap()  # begins the bath
    assert state(bench) == "bath"


def hanging(folder: Path, options: Options) -> None:
    """The processor hangs, lit and dark: the light ends on time, the watchdog bites, bounds are told."""
    with on_stage(folder, options) as bench:
        lit(bench)
        bench.hang()
        bench.run_for(6_500)
        assert not bench.lamp and records(bench, "boot")[-1]["reason"] == 1
        cut = records(bench, "cut")[-1]
        assert 1_900 <= cut["least_ms"] <= cut["most_ms"] == 5_000
        bench.hang()
        bench.run_for(8_000)
        assert len(records(bench, "boot")) == 3


def an_exception(folder: Path, options: Options) -> None:
    """Something raises in a light: dark at once, a fault that only a person leaves, then held."""
    with on_stage(folder, options) as bench:
        lit(bench)
        bench.tell_box("raise")
        bench.run_for(1)
        assert not bench.lamp
        bench.run_for(3_000)
        assert status(bench)["fault"] == st.EXCEPTION
        bench.tap()
        assert state(bench) == "fault"
        bench.hold()
        assert state(bench) == "held"
        bench.run_for(700)
        bench.tap()
        bench.run_for(5_000)
        assert sum(record["light_ms"] for record in records(bench, "gave")) == 5_000


def left_for_the_prompt(folder: Path, options: Options) -> None:
    """A run is left and the program ended for an install: gate, pump and both legs of the coil are off."""
    with on_stage(folder, options) as bench:
        leave(bench)
        channel(bench).ask("maintain")
        bench.run_for(1_000)
        assert bench.end and bench.end.kind == ev.PROMPT


def too_much_light(folder: Path, options: Options) -> None:
    """What the caps forbid is refused at the commit, and the lamp rests when its ten minutes are used up."""
    wrong = [
        program(LIGHT | {"time_ms": 60_000}),
        program(LIGHT | {"time_ms": 40_000}, lamps=[LAMP | {"window_ms": 30_000}]),
        program(LIGHT | {"auto": 1}),
        program(BATH, LIGHT | {"auto": 1}),
        program(LIGHT | {"lamp": 1}),
    ]
    hot = program(*[LIGHT | {"time_ms": 50_000}] * 4, lamps=[LAMP | {"window_ms": 120_000}])
    with on_stage(folder, options, hot) as bench:
        for _ in range(2):
            light(bench, 51_000)
        bench.tap()
        bench.run_for(1_000)
        assert not bench.lamp and len(gate_ms(bench)) == 2
    for number, raw in enumerate(wrong):
        with on_stage(folder / str(number), options) as bench:
            leave(bench)
            with contextlib.suppress(RefusedError):
                send(bench, raw, 2)
                raise AssertionError(f"{raw} was taken")


def a_hot_lamp_and_no_power(folder: Path, options: Options) -> None:
    """The lamp's ten minutes go on over a power cut and over a watchdog's reset."""
    hot = program(*[LIGHT | {"time_ms": 50_000}] * 4, lamps=[LAMP | {"window_ms": 120_000}])
    with on_stage(folder, options, hot) as bench:
        for _ in range(2):
            light(bench, 51_000)
        for start_anew in (_cut, _bite):
            start_anew(bench)
            bench.run_for(2_000)
            _give_up_to_the_whole(bench)
            bench.tap()
            bench.run_for(1_000)
            assert not bench.lamp and len(gate_ms(bench)) == 2
        # The second light's record is some minutes old by now; what never could be known is not waited for.
        bench.run_for(600_000)
        light(bench, 51_000)
        assert len(gate_ms(bench)) == 3


def _cut(bench: Bench) -> None:
    bench.cut_power()
    bench.switch_on()


def _bite(bench: Bench) -> None:
    bench.hang()
    bench.run_for(8_000)


def bad_lamps(folder: Path, options: Options) -> None:
    """A welded relay forbids a run; a lamp that stays dark gave nothing, one that goes out what it gave."""
    with on_stage(folder, options) as bench:
        bench.sense_lamp(2.5, 40)
        light(bench, 6_000)
        bench.tap()
        bench.run_for(20_000)
        bench.cut_power()
        bench.sense(2.5)
        bench.switch_on()
        bench.run_for(1_500)
        assert status(bench)["fault"] == st.WELDED_RELAY
    with on_stage(folder / "b", options, program(LIGHT, LIGHT)) as bench:
        bench.sense_lamp(2.5, 40)
        light(bench, 6_000)
        bench.sense_lamp(0.0, 40)
        bench.tap()
        bench.run_for(1_000)
        assert status(bench)["fault"] == st.NO_LIGHT
        assert records(bench, "gave")[-1]["light_ms"] == 0
        bench.hold()
        bench.sense_lamp(2.5, 40)
        light(bench, 2_000)
        bench.sense(0.0)
        bench.run_for(500)
        assert status(bench)["fault"] == st.NO_LIGHT
        assert records(bench, "gave")[-1]["light_ms"] > 1_900
