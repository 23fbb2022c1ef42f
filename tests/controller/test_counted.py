"""Light counted, with the lamps of the bench: learnt at the pedal, ended by dose, told, kept; and what is not
plausible. What each light really gave is the lamp's own sum (`dose` of the box)."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from tests.controller.stage import LIGHT, channel, gate_ms, program, records, switched_on

from footlight.actions import learn_lamp
from footlight.actions.learn_lamp import DARK, STOP, learn_over
from footlight.actions.learn_lamp import LIGHT as LAMP_ON
from footlight.bench import Bench
from footlight.bench.lamp import Lamp, Sensor, fitted
from footlight.errors import InputError
from footlight_core import states as st

PLANNED_MS, DEAD_MS = 1_500, 160
STEADY, SEES = Lamp(drift=0.0), Sensor()
SEQUENCE = program(*[LIGHT | {"time_ms": PLANNED_MS, "dead_ms": DEAD_MS}] * 3)
# 1.25 V of the warm lamp and 4 mV of offset, of 3.3 V.
LEARNT = {"lamp": "ENL", "level": 24_903, "dark": 79, "warm_ms": 0, "tail_ms": 27, "power": 1_000}


def armed(folder: Path, burning: Lamp = STEADY, sensor: Sensor = SEES, **learnt: Any) -> Bench:
    """A lamp is learnt, and a run is at its first light."""
    bench = switched_on(folder, SEQUENCE, lamp=fitted(burning, sensor))
    channel(bench).ask("learn", **(LEARNT | learnt))
    for _ in range(2):
        bench.hold()
        bench.run_for(700)
    return bench


def light(bench: Bench, ms: float = 2_600) -> dict[str, Any]:
    """The next light -> what it gave and how it was measured."""
    bench.run_for(700)
    bench.tap()
    bench.run_for(ms)
    measured = records(bench, "dose")
    return records(bench, "gave")[-1] | {"measured": measured[-1] if measured else None}


def had_ms(bench: Bench) -> float:
    """Light by the lamp's own sum, as the sensor would see it with no fault."""
    bench.tell_box("dose")
    bench.run_for(1)
    return int([event for event in bench.events if event.kind == "dose"][-1].text.split()[0]) / 1000


@pytest.mark.parametrize("mains", [0.97, 1.0, 1.05])
def test_a_dose_is_given_whatever_the_mains(tmp_path: Path, mains: float):
    with armed(tmp_path, Lamp(drift=0.0, mains=((0, mains),))) as bench:
        gave = light(bench)
        assert gave["how"] == "whole" and gave["light_ms"] == PLANNED_MS
        assert gave["measured"]["how"] == "counted"
        assert abs(had_ms(bench) / PLANNED_MS - 1) < 0.01
        by_seconds = abs(PLANNED_MS / (gate_ms(bench)[0] - DEAD_MS) - 1)
        assert (by_seconds > 0.08) == (mains != 1.0)


def test_no_light_is_longer_than_its_cap(tmp_path: Path):
    with armed(tmp_path, Lamp(drift=0.0, mains=((0, 0.92),))) as bench:
        gave = light(bench)
        assert gate_ms(bench) == [int(1.259 * PLANNED_MS) + DEAD_MS]
        assert gave["how"] == "short" and gave["left_ms"] > 50


def test_a_press_stops_it_and_the_rest_is_counted(tmp_path: Path):
    with armed(tmp_path, Lamp(drift=0.0, mains=((0, 0.97),))) as bench:
        bench.run_for(700)
        bench.tap()
        bench.run_for(900)
        bench.tap()
        bench.run_for(300)
        first = records(bench, "gave")[-1]
        assert first["how"] == "held" and first["light_ms"] < first["gate_ms"] - DEAD_MS
        second = light(bench)
        assert second["how"] == "whole" and first["light_ms"] + second["light_ms"] == PLANNED_MS
        assert abs(had_ms(bench) / PLANNED_MS - 1) < 0.015


@pytest.mark.parametrize("pause_ms", [60, 300])
def test_no_pause_of_the_processor_moves_a_predicted_end(tmp_path: Path, pause_ms: float):
    with armed(tmp_path / "a") as bench:
        light(bench)
        undisturbed = gate_ms(bench)[0]
    with armed(tmp_path / "b") as bench:
        bench.run_for(700)
        bench.tap()
        bench.run_for(undisturbed - 50 - pause_ms / 2)
        bench.pause(pause_ms)
        bench.run_for(1_000)
        assert abs(gate_ms(bench)[0] - undisturbed) < 4, "the lamp's own ripple moves it by so much"


WRONG = {
    "safelight": (Sensor(safelight_v=0.1), {}, "bright"),
    "another lamp's level": (Sensor(volts=0.5), {}, "level"),
    "saturated": (Sensor(limit_v=2.95, volts=3.5), {"level": 35_500}, "saturated"),
    "another lamp": (Sensor(), {"lamp": "FLASH"}, "unlearnt"),
}


@pytest.mark.parametrize("name", WRONG)
def test_what_is_not_plausible_goes_by_seconds_and_says_why(tmp_path: Path, name: str):
    sensor, learnt, how = WRONG[name]
    with armed(tmp_path, STEADY, sensor, **learnt) as bench:
        gave = light(bench)
        assert gave["measured"]["how"] == how
        assert gate_ms(bench)[0] <= PLANNED_MS + DEAD_MS + 0.1


def test_a_sensor_that_sticks_is_a_welded_relay_until_it_is_looked_at(tmp_path: Path):
    with armed(tmp_path, STEADY) as bench:
        bench.fit(fitted(STEADY, Sensor(fault="stuck")))
        bench.run_for(1_500)
        assert records(bench, "fault")[-1]["code"] in (st.LIGHT_NOT_ASKED, st.WELDED_RELAY)


def test_a_sensor_that_sticks_in_mid_light(tmp_path: Path):
    with armed(tmp_path, STEADY) as bench:
        bench.run_for(700)
        bench.tap()
        bench.run_for(900)
        bench.fit(None)
        bench.sense(1.25)
        bench.run_for(800)
        assert records(bench, "dose")[-1]["how"] == "stuck"
        assert gate_ms(bench)[0] <= PLANNED_MS + DEAD_MS + 0.1


@pytest.mark.parametrize("fault", ["covered", "unplugged"])
def test_a_dead_sensor_is_a_fault_once_and_then_lights_go_by_seconds(tmp_path: Path, fault: Any):
    with armed(tmp_path, STEADY, Sensor(fault=fault)) as bench:
        light(bench, 1_000)
        assert records(bench, "fault")[-1]["code"] == st.NO_LIGHT
        first = records(bench, "gave")[-1]
        assert first["gate_ms"] > 250, "the lamp may have burnt, and the sensor be dead"
        bench.hold()
        gave = light(bench)
        assert gave["how"] == "whole" and gave["measured"]["how"] == "level"
        assert sum(gate_ms(bench)) <= PLANNED_MS + 2 * DEAD_MS + 1


def test_a_sensor_that_is_unplugged_in_mid_light_stops_it(tmp_path: Path):
    with armed(tmp_path, STEADY) as bench:
        bench.run_for(700)
        bench.tap()
        bench.run_for(900)
        bench.fit(fitted(STEADY, Sensor(fault="unplugged")))
        bench.run_for(500)
        assert records(bench, "fault")[-1]["code"] == st.NO_LIGHT
        gave = records(bench, "gave")[-1]
        assert gate_ms(bench)[0] < 1_300 and 0 < gave["light_ms"] <= gave["gate_ms"]


def test_what_was_learnt_outlives_the_power(tmp_path: Path):
    with armed(tmp_path) as bench:
        bench.cut_power()
        bench.switch_on()
        bench.run_for(1_000)
        told = channel(bench).ask("sense")
        assert told["fitted"] == 1 and told["lamps"] == [["ENL", 24_903, 79, 0, 27, 1_000]]


class Feet:
    """Does at the pedal what is asked for."""

    def __init__(self, bench: Bench) -> None:
        self.bench = bench
        self.asked: list[str] = []

    def ask(self, what: str) -> None:
        self.asked.append(what)
        bench = self.bench
        if what == LAMP_ON:
            for act in (bench.tap, bench.hold, bench.tap):
                bench.run_for(700)
                act()
        elif what == STOP:
            bench.tap()
            bench.run_for(1_500)
            bench.hold()

    def wait(self, span_s: float) -> None:
        self.bench.run_for(span_s * 1000)


def test_a_lamp_is_learnt_at_the_pedal(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr(learn_lamp, "_LIT_MS", 21_000)
    with switched_on(tmp_path, SEQUENCE, lamp=fitted(Lamp(drift=0.02, drift_s=15))) as bench:
        feet = Feet(bench)
        learnt = learn_over(channel(bench), "ENL", feet.ask, feet.wait)
        assert feet.asked == [DARK, LAMP_ON, STOP]
        assert abs(learnt.lamp.level / LEARNT["level"] - 1) < 0.012 and abs(learnt.lamp.dark - 79) < 40
        # The filament's own afterglow, by the lamp's sum: 27 ms of its level.
        assert abs(learnt.lamp.tail_ms - 27) <= 5
        assert channel(bench).ask("sense")["lamps"][0][:2] == ["ENL", learnt.lamp.level]


class Lamps:
    """A controller whose lamp is lit when it is asked for, and warms up for ever."""

    name = "scripted"

    def __init__(self, readings: Callable[[int], int], lit_s: int) -> None:
        self._readings = readings
        self._lit_s = lit_s
        self.s = -1.0
        self.done: list[str] = []

    def ask(self, method: str, **params: Any) -> dict[str, Any]:
        if method != "sense":
            self.done.append(method)
            return {"state": "idle"}
        is_lit = 0 <= self.s < self._lit_s
        reading = self._readings(int(self.s)) if is_lit else 80
        return {"reading": reading, "lit": int(is_lit), "t": int(self.s * 1000) if is_lit else 0,
                "tail_ms": 27, "fitted": 1, "lamps": []}  # fmt: skip

    def person(self, what: str) -> None:
        self.s = {DARK: -1.0, LAMP_ON: 0.0, STOP: 1e6}[what]

    def wait(self, span_s: float) -> None:
        self.s += span_s if self.s >= 0 else 0


@pytest.mark.parametrize(
    ("readings", "lit_s", "words"),
    [
        (lambda s: 20_000 + 40 * s, 119, "nothing was learnt"),
        (lambda s: 20_000 + s % 3, 9, "nothing was learnt"),
        (lambda s: 50_000, 119, "smaller R19"),
        (lambda s: 150, 119, "uncovered"),
    ],
)
def test_what_is_not_learnt(readings: Callable[[int], int], lit_s: int, words: str):
    lamps = Lamps(readings, lit_s)
    with pytest.raises(InputError, match=words):
        learn_over(lamps, "ENL", lamps.person, lamps.wait)  # type: ignore[arg-type]
    assert "learn" not in lamps.done
