"""Scenes of counted lights: a mains that is low, a cap, a sensor that goes wrong."""

from pathlib import Path
from typing import Any

from tests.controller.stage import LIGHT, channel, gate_ms, program, records, switched_on
from tests.planted.setting import Options

from footlight.bench import Bench
from footlight.bench.lamp import Lamp, Sensor, fitted
from footlight.bench.referee import watch

LIGHT_MS, DEAD_MS = 1_500, 160
_LEARNT = {"lamp": "ENL", "level": 24_903, "dark": 79, "warm_ms": 0, "tail_ms": 27, "power": 1_000}
_TWO_LIGHTS = program(*[LIGHT | {"time_ms": LIGHT_MS, "dead_ms": DEAD_MS}] * 2)


def a_low_mains(folder: Path, options: Options) -> None:
    """A twentieth low: the dose is there, in longer than planned; then a mains that no cap makes good."""
    with _armed(folder, options, 0.96) as bench:
        before_ms = _had_ms(bench)
        measured = _light(bench)
        assert measured["how"] == "counted" and gate_ms(bench)[0] > LIGHT_MS + DEAD_MS + 100
        assert abs((_had_ms(bench) - before_ms) / LIGHT_MS - 1) < 0.008
        bench.fit(fitted(Lamp(drift=0.0, mains=((0, 0.9),))))
        _light(bench)
        assert gate_ms(bench)[1] <= 1.26 * LIGHT_MS + DEAD_MS + 1
        assert records(bench, "gave")[-1]["how"] == "short"


def a_sensor_that_is_lost(folder: Path, options: Options) -> None:
    """It reads a third from the middle of a light on: by seconds, and no longer than planned."""
    with _armed(folder, options, 0.97) as bench:
        bench.run_for(700)
        bench.tap()
        bench.run_for(1_000)
        bench.fit(fitted(Lamp(drift=0.0, mains=((0, 0.97),)), Sensor(volts=0.45)))
        bench.run_for(1_500)
        assert records(bench, "dose")[-1]["how"] == "lost"
        assert gate_ms(bench)[0] <= LIGHT_MS + DEAD_MS + 1


def _armed(folder: Path, options: Options, mains: float) -> Bench:
    lamp = fitted(Lamp(drift=0.0, mains=((0, mains),)))
    bench = switched_on(folder, _TWO_LIGHTS, lamp=lamp, **options)
    watch(bench)
    channel(bench).ask("learn", **_LEARNT)
    for _ in range(2):
        bench.hold()
        bench.run_for(700)
    return bench


def _light(bench: Bench) -> dict[str, Any]:
    bench.run_for(700)
    bench.tap()
    bench.run_for(2_600)
    return records(bench, "dose")[-1]


def _had_ms(bench: Bench) -> float:
    bench.tell_box("dose")
    bench.run_for(1)
    return int([event for event in bench.events if event.kind == "dose"][-1].text.split()[0]) / 1000
