"""One light in a sagging mains, given twice on the bench: counted, and by seconds. All of it is invented."""

import hashlib
import math
import time
from dataclasses import dataclass
from pathlib import Path
from typing import Any, NamedTuple

from footlight.actions.link_to_bench import link_to_bench
from footlight.bench import Bench
from footlight.bench import events as ev
from footlight.bench.lamp import Lamp, Sensor, fitted, reading_of
from footlight.bench.process import CPYTHON
from footlight.bench.referee import watch
from footlight.link import upload
from footlight.report import chart_light
from footlight.report.chart_light import Course
from footlight_core import wire

ASKED_S = 10.0
COUNTED, BY_SECONDS = "counted", "by seconds"
# Seconds since the lamp was switched on, mains over nominal: at full voltage, then somebody cooks.
SAG = ((0.0, 1.0), (2.0, 1.0), (2.02, 0.95), (6.0, 0.96), (8.0, 0.945), (20.0, 0.955))
_LAMP = Lamp(drift=0.0)
# As a sensor behind blue glass sees, against paper: stops of paper for one of the sensor's, in thousandths.
_POWER = 1059
_SENSOR = Sensor(sees="blue")
# Of the two interpreters, whose events are the same, the one that works out a lamp faster: CPython.
_NAME = "ENL"
_LEARNING_S, _STEADY_S = 3, 2
_LOOK_MS, _DARK_MS = 50, 2_500
_BOOT_MS, _REST_MS = 4_000, 700
_TAP_TO_LIGHT_US = 240_000


@dataclass(frozen=True)
class Learnt:
    """The warm lamp: level of sensor and paper over the new lamp's, dead time and glow [s]."""

    sensor: float
    paper: float
    dead_s: float
    glow_s: float


@dataclass(frozen=True)
class Twice:
    """The two lights, and the picture of them."""

    asked_s: float
    courses: tuple[Course, Course]
    picture: Path


class Had(NamedTuple):
    """So long after the gate's rise, what sensor and paper have had, in seconds of the new, warm lamp."""

    at_s: float
    sensor_s: float
    paper_s: float


def give_light_twice(folder: Path, picture: Path) -> Twice:
    """Give it on benches in `folder`, and draw it.

    Raises InputError where the picture cannot be written, BreachError where the firmware breaks a rule.
    """
    learnt = _learn(folder / "learning")
    counted = _give(folder / "counted", learnt, is_counted=True)
    seconds = _give(folder / "seconds", learnt, is_counted=False)
    mains = [(at_s, 100 * voltage) for at_s, voltage in SAG]
    chart_light.draw(ASKED_S, mains, (counted, seconds), picture)
    return Twice(ASKED_S, (counted, seconds), picture)


def _bench(folder: Path, time_s: float, dead_s: float) -> Bench:
    bench = Bench(folder, CPYTHON, lamp=fitted(_LAMP, _SENSOR))
    watch(bench, "footlight demo")
    bench.switch_on()
    lamp = {"name": _NAME, "cap_ms": 60_000, "window_ms": 300_000}
    step: dict[str, Any] = {"kind": "light", "name": "a light", "show": "LIGHT"}
    step |= {"time_ms": round(time_s * 1000), "dead_ms": round(dead_s * 1000)}
    raw = {"v": 1, "title": "LIGHT", "name": "one light", "lamps": [lamp], "steps": [step]}
    data = wire.dumps(raw).encode()
    channel = link_to_bench(bench, int(time.time()))
    upload.send(channel, data, hashlib.sha256(data).hexdigest(), raw["title"], slot=1)
    bench.run_for(_BOOT_MS)
    return bench


def _arm(bench: Bench) -> None:
    for _ in range(2):
        bench.hold()
        bench.run_for(_REST_MS)


def _learn(folder: Path) -> Learnt:
    with _bench(folder, _LEARNING_S, 0) as bench:
        _arm(bench)
        doses, gate_s = _light(bench, _LEARNING_S)
    begin, *_, end = [dose for dose in doses if _STEADY_S <= dose.at_s <= gate_s]
    span_s = end.at_s - begin.at_s
    sensor, paper = (end.sensor_s - begin.sensor_s) / span_s, (end.paper_s - begin.paper_s) / span_s
    glow_s = (doses[-1].sensor_s - end.sensor_s) / sensor - (gate_s - end.at_s)
    return Learnt(sensor, paper, gate_s - doses[-1].paper_s / paper, glow_s)


def _give(folder: Path, learnt: Learnt, is_counted: bool) -> Course:
    with _bench(folder, ASKED_S, learnt.dead_s) as bench:
        if is_counted:
            link_to_bench(bench, 0).ask("learn", **_settings(learnt))
            bench.run_for(_REST_MS)
        _arm(bench)
        begin_us = bench.now_us + _TAP_TO_LIGHT_US
        sag = tuple((begin_us + round(at_s * 1e6), voltage) for at_s, voltage in SAG)
        bench.fit(fitted(Lamp(drift=0.0, mains=sag), _SENSOR))
        doses, gate_s = _light(bench, ASKED_S)
    dose_s = [dose.paper_s / learnt.paper for dose in doses]
    name = COUNTED if is_counted else BY_SECONDS
    error_stops = math.log2(dose_s[-1] / ASKED_S)
    return Course(name, [dose.at_s for dose in doses], dose_s, gate_s, error_stops)


def _settings(learnt: Learnt) -> dict[str, int | str]:
    level = reading_of(_SENSOR.offset_v + learnt.sensor * _SENSOR.volts)
    return {
        "lamp": _NAME,
        "level": level,
        "dark": reading_of(_SENSOR.offset_v),
        "warm_ms": 0,
        "tail_ms": round(learnt.glow_s * 1000),
        "power": _POWER,
    }


def _light(bench: Bench, about_s: float) -> tuple[list[Had], float]:
    """What sensor and paper have had at each time since the gate's rise, and how long it was up [s]."""
    first = len(bench.events)
    bench.tap()
    span_ms = round(about_s * 1300) + _DARK_MS
    for at_ms in range(_LOOK_MS, span_ms, _LOOK_MS):
        bench.tell_box(f"at {bench.now_us + at_ms * 1000} dose")
    bench.run_for(span_ms)
    events = bench.events[first:]
    rise_us, fall_us = (event.t_us for event in events if event.kind == ev.GATE)
    doses = [event for event in events if event.kind == ev.DOSE]
    return [_had(event, rise_us) for event in doses], (fall_us - rise_us) / 1e6


def _had(event: ev.Event, rise_us: int) -> Had:
    sensor_us, paper_us, _ = map(int, event.text.split())
    return Had((event.t_us - rise_us) / 1e6, sensor_us / 1e6, paper_us / 1e6)
