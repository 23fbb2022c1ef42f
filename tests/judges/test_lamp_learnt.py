"""A lamp is learnt at the pedal, from cold, and then its light is counted: both against what paper had.

Written from the page of the command; the lamp's own light is integrated by the witness.
"""

import math
from dataclasses import replace
from pathlib import Path

import pytest
from tests.controller.stage import LIGHT, channel, program, send
from tests.witnesses.lamps.campaign import give, rows_of
from tests.witnesses.lamps.scenario import Scenario
from tests.witnesses.lamps.spectra import level

from footlight.actions.learn_lamp import DARK, LampLearnt, learn_over
from footlight.actions.learn_lamp import LIGHT as LIGHT_IT
from footlight.bench import Bench
from footlight.bench import events as ev
from footlight.bench.display_text import frame_text
from footlight.bench.lamp import Lamp, Sensor, fitted, reading_of
from footlight.bench.process import CPYTHON
from footlight.errors import InputError

NAME = "ENL"
TUNGSTEN = Lamp(drift=0.05, drift_s=30.0, mains=((0, 1.01),))
LED = Lamp(kind="led", drift=0.08, drift_s=40.0, ripple=0.2)
SENSOR = Sensor(offset_v=0.006)
_REST_MS = 700


def shown(bench: Bench) -> str:
    """What the display last said."""
    return next(frame_text(event.text) for event in reversed(bench.events) if event.kind == ev.FRAME)


def light_the_lamp(bench: Bench) -> None:
    """The set-up light, at the pedal."""
    for _ in range(6):
        if "FOCUS" in shown(bench):
            break
        bench.tap()
        bench.run_for(_REST_MS)
    bench.hold()
    bench.run_for(_REST_MS)
    bench.tap()


def leave(bench: Bench) -> None:
    """The lamp off, and the set-up light left."""
    bench.tap()
    bench.run_for(_REST_MS)
    bench.hold()
    bench.run_for(_REST_MS)


def learn(bench: Bench) -> LampLearnt:
    """A person does what is asked."""

    def ask(what: str) -> None:
        if what != DARK:
            (light_the_lamp if what == LIGHT_IT else leave)(bench)

    return learn_over(channel(bench), NAME, ask, lambda span_s: bench.run_for(span_s * 1000))


def on(folder: Path, lamp: Lamp, sensor: Sensor = SENSOR, asked_ms: int = 2_000) -> Bench:
    """A controller that knows no lamp, with one light in slot 1."""
    bench = Bench(folder, CPYTHON, lamp=fitted(lamp, sensor))
    bench.switch_on()
    lamps = [{"name": NAME, "cap_ms": 60_000, "window_ms": 300_000}]
    send(bench, program(LIGHT | {"time_ms": asked_ms, "dead_ms": 100}, lamps=lamps))
    bench.run_for(5_000)
    return bench


def warm_reading(lamp: Lamp, sensor: Sensor) -> float:
    """What the warm lamp reads, by Planck's law."""
    seen = float(level(sensor.sees, lamp.mains[0][1] ** (2 / 5.2))) if lamp.kind == "tungsten" else 1.0
    return reading_of(sensor.offset_v + seen * sensor.volts)


@pytest.mark.parametrize("lamp", [pytest.param(TUNGSTEN, id="tungsten"), pytest.param(LED, id="led")])
def test_what_is_learnt_is_the_warm_lamp(tmp_path: Path, lamp: Lamp):
    with on(tmp_path, lamp) as bench:
        known = learn(bench).lamp
    wanted = warm_reading(lamp, SENSOR) - reading_of(SENSOR.offset_v)
    assert abs(math.log2((known.level - known.dark) / wanted)) < 0.012


def test_a_light_of_a_lamp_learnt_at_the_pedal_is_right(tmp_path: Path):
    lamp = replace(TUNGSTEN, drift=0.0)
    with on(tmp_path, lamp) as bench:
        known = learn(bench).lamp
        assert abs(known.dark - reading_of(SENSOR.offset_v)) < 40
        bench.run_for(20_000)
        while "PRINT" not in shown(bench):
            bench.tap()
            bench.run_for(_REST_MS)
        for _ in range(2):
            bench.hold()
            bench.run_for(_REST_MS)
        dimmed = replace(lamp, mains=((0, 1.0),))
        row = rows_of([give(bench, Scenario(3, 2.0, lamp, dimmed, SENSOR))])[0]
    assert row.how == "counted" and abs(row.counted) < 0.02


@pytest.mark.parametrize(
    "sensor",
    [replace(SENSOR, fault="covered"), replace(SENSOR, volts=4.0)],
    ids=["covered", "saturated"],
)
def test_what_cannot_be_learnt_is_refused(tmp_path: Path, sensor: Sensor):
    with on(tmp_path, LED, sensor) as bench, pytest.raises(InputError):
        learn(bench)
