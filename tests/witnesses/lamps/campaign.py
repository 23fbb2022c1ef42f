"""Errors of many lights, counted and by seconds, against what paper has had.

By the plain reader, and by the real firmware on the bench. What tells of a light is `Row`.
"""

import math
import random
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import Any

from tests.controller.stage import LIGHT, channel, program, records, send
from tests.witnesses.lamps import truth
from tests.witnesses.lamps.reader import Reader
from tests.witnesses.lamps.scenario import LIGHTS_A_LAMP, Scenario, scenario
from tests.witnesses.lamps.spectra import mains_exponent

from footlight.bench import Bench
from footlight.bench import events as ev
from footlight.bench.lamp import reading_of
from footlight.bench.process import CPYTHON

BEGIN_US = 60_000_000
CAP = 1.26  # a third of a stop, rounded as on every engraved scale: by 0.0001 stop
BY_CAP = "cap"
_COOL_MS = 100_000
_ENLARGER = {"name": "ENL", "cap_ms": 60_000, "window_ms": 300_000}
_NOTHING_YET_MS = 60
_STILL_MS = (2, 30)  # what a frame or a collection takes


@dataclass(frozen=True)
class Row:
    """A light: what it was off by [stops], both ways; how it was given, in the record's word, or that its cap
    ended it; gate and cap [ms]; how far the mains went from the nominal; what the record's dose is off
    from what paper had [stops].
    """

    seed: int
    asked_s: float
    counted: float
    seconds: float
    how: str
    gate_ms: float
    cap_ms: float
    mains_off: float
    recorded: float = 0.0

    @property
    def is_capped(self) -> bool:
        """Was there no more time?"""
        return self.how == BY_CAP


@dataclass(frozen=True)
class Given:
    """A light as it was given: its gate [us of the bench], the warm-up before it, and what was said of it."""

    scenario: Scenario
    begin_us: int
    end_us: int
    warmth: float
    how: str
    recorded_s: float = 0.0


def rows_of(lights: list[Given]) -> list[Row]:
    """By the lamp's own light. By seconds: what was asked and the dead time, which is known."""
    known = truth.steady([light.scenario.learnt for light in lights])
    dead_s = [each.dead_s for each in known]
    spans = [(light, light.end_us) for light in lights] + [
        (light, light.begin_us + int((light.scenario.asked_s + dead) * 1e6))
        for light, dead in zip(lights, dead_s, strict=True)
    ]
    doses_s = truth.doses_s(
        [truth.Light(light.scenario.lit, light.begin_us, end_us, light.warmth) for light, end_us in spans]
    )
    both = doses_s.reshape(2, -1).T
    return [_row(light, steady, pair) for light, steady, pair in zip(lights, known, both, strict=True)]


def _row(light: Given, known: truth.Steady, doses_s: Any) -> Row:
    asked_s = light.scenario.asked_s
    counted, seconds = (math.log2(max(1e-6, dose_s) / known.level / asked_s) for dose_s in doses_s)
    gate_ms = (light.end_us - light.begin_us) / 1000
    cap_ms = cap_us(light.scenario, known.dead_s) / 1000
    off = max(abs(voltage - 1) for _, voltage in light.scenario.lit.mains)
    recorded = math.log2(light.recorded_s / asked_s) - counted if light.recorded_s else 0.0
    return Row(light.scenario.seed, asked_s, counted, seconds, light.how, gate_ms, cap_ms, off, recorded)


def cap_us(each: Scenario, dead_s: float) -> int:
    """The longest that its gate may be open."""
    return int((each.asked_s * CAP + dead_s) * 1e6)


# -- the plain reader --------------------------------------------------------------------------------


def by_reader(seeds: Iterable[int], sees: str, asked_s: float | None = None) -> list[Row]:
    """Lights of cold lamps, counted by the plain reader."""
    scenarios = [scenario(seed, BEGIN_US, sees, asked_s) for seed in seeds]
    known = truth.steady([each.learnt for each in scenarios])
    return rows_of([_read(each, steady.dead_s) for each, steady in zip(scenarios, known, strict=True)])


def _read(each: Scenario, dead_s: float) -> Given:
    learnt, lit = each.fitted
    reader = Reader(learnt, each.seed)
    reader.learn()
    reader.cool_down_until(BEGIN_US)
    reader.change(lit)
    begin_us, end_us = reader.light(int(each.asked_s * 1e6), cap_us(each, dead_s))
    how = BY_CAP if end_us - begin_us >= cap_us(each, dead_s) else "counted"
    return Given(each, begin_us, end_us, 0.0, how)


# -- the firmware ------------------------------------------------------------------------------------


def by_firmware(
    lamp_number: int, folder: Path, sees: str = "blue", interpreter: str = CPYTHON
) -> list[Given]:
    """The lights of one lamp, each from cold, by the real firmware on the bench."""
    seeds = range(lamp_number * LIGHTS_A_LAMP, (lamp_number + 1) * LIGHTS_A_LAMP)
    lights: list[Given] = []
    while len(lights) < len(seeds):
        left = seeds[len(lights) :]
        lights += one_run([scenario(seed, 0, sees) for seed in left], folder / str(left[0]), interpreter)
    return lights


def one_run(plans: list[Scenario], folder: Path, interpreter: str = CPYTHON) -> list[Given]:
    """As far as all goes well: after a light that was not given whole, a new controller takes the next."""
    dead_ms = max(0, round(truth.steady([plans[0].learnt])[0].dead_s * 1000))
    steps = [LIGHT | {"time_ms": round(plan.asked_s * 1000), "dead_ms": dead_ms} for plan in plans]
    drift_us = plans[0].learnt.drift_s * 1e6
    warmth, since_us, lights = 0.0, 0, []
    with learnt_bench(folder, plans[0], steps, interpreter) as bench:
        for plan in plans:
            bench.run_for(_COOL_MS)
            warmth *= math.exp((since_us - bench.now_us) / drift_us)
            light = give(bench, scenario(plan.seed, bench.now_us, plan.sensor.sees, plan.asked_s), warmth)
            lights.append(light)
            warmth, since_us = _warmed(light), light.end_us
            if records(bench, "gave")[-1]["how"] != "whole":
                break
    return lights


def _warmed(light: Given) -> float:
    span_s = (light.end_us - light.begin_us) / 1e6
    return 1 - (1 - light.warmth) * math.exp(-span_s / light.scenario.lit.drift_s)


def learnt_bench(
    folder: Path, plan: Scenario, steps: list[dict[str, Any]], interpreter: str = CPYTHON, **options: Any
) -> Bench:
    """A bench whose firmware knows this lamp, with a run of these steps under way. options: of the bench."""
    bench = Bench(folder, interpreter, lamp=plan.fitted[0], **options)
    bench.switch_on()
    send(bench, program(*steps, lamps=[_ENLARGER]))
    bench.run_for(5_000)
    channel(bench).ask("learn", lamp=_ENLARGER["name"], **learnt_values(plan))
    bench.run_for(1_000)
    for _ in range(2):
        bench.hold()
        bench.run_for(700)
    return bench


@lru_cache
def learnt_values(plan: Scenario) -> dict[str, int]:
    """What the learning of this lamp comes to, by the plain reader."""
    reader = Reader(plan.fitted[0], plan.seed)
    reader.learn()
    is_led = plan.learnt.kind == "led"
    power = 1000 if is_led else round(1000 * mains_exponent("paper") / mains_exponent(plan.sensor.sees))
    return {
        "level": reading_of(reader.offset_v + reader.level_v),
        "dark": reading_of(reader.offset_v),
        "warm_ms": 60_000,
        "tail_ms": round(reader.glow_us / 1000),
        "power": power,
    }


def give(bench: Bench, plan: Scenario, warmth: float = 0.0) -> Given:
    """One light of the run, among collections and frames, and the dark after it."""
    bench.fit(plan.fitted[1])
    first = len(bench.events)
    bench.tap()
    disturb(bench, plan)
    bench.run_for(plan.asked_s * 1300 + 3_000)
    edges = [event.t_us for event in bench.events[first:] if event.kind == ev.GATE]
    dose = (records(bench, "dose") or [{"how": "no record", "dose_ms": 0}])[-1]
    if len(edges) != 2:
        return Given(plan, bench.now_us, bench.now_us, warmth, f"gate moved {len(edges)} times")
    is_short = dose["how"] == "counted" and records(bench, "gave")[-1]["left_ms"] > 0
    how = BY_CAP if is_short else dose["how"]
    return Given(plan, edges[0], edges[1], warmth, how, dose["dose_ms"] / 1000)


def disturb(bench: Bench, plan: Scenario) -> None:
    """The processor stands still, now and then."""
    dice = random.Random(plan.seed)
    at_ms, end_ms = float(_NOTHING_YET_MS), plan.asked_s * 1300
    while at_ms < end_ms:
        still_ms = dice.randint(*_STILL_MS)
        bench.tell_box(f"at {bench.now_us + round(at_ms * 1000)} pause {still_ms * 1000}")
        at_ms += still_ms + dice.uniform(20, 400)
