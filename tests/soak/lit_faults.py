"""Counted lights in which anything happens to lamp, sensor, foot, processor and power; the judges judge.

A seed is one controller that has learnt its lamp, with four lights.
"""

import random
import tempfile
from collections import Counter
from dataclasses import replace
from pathlib import Path

from tests.controller.stage import LIGHT, records
from tests.soak.bits import Outcome
from tests.witnesses.lamps import truth
from tests.witnesses.lamps.campaign import learnt_bench
from tests.witnesses.lamps.scenario import Scenario, scenario

from footlight.bench import Bench
from footlight.bench.lamp import fitted
from footlight.bench.referee import BreachError, Referee
from footlight.bench.sheet_ledger import SheetLedger

_LIGHTS = 4
_FAULTS = ("covered", "stuck", "unplugged", "elsewhere", "")


def _spoilt(dice: random.Random, plan: Scenario) -> dict:
    """Some lamp, some sensor."""
    sensor = replace(
        plan.sensor,
        fault=dice.choice(_FAULTS),  # pyright: ignore[reportArgumentType]
        volts=plan.sensor.volts * dice.choice((0.1, 0.4, 0.9, 1.0, 1.1, 1.8, 3.0)),
        safelight_v=dice.choice((0.0, 0.0, 0.05, 0.4)),
        stuck_v=dice.uniform(0, 3.3),
        noise_v=dice.choice((0.0, 0.0008, 0.02)),
    )
    mains = dice.choice((0.0, 0.5, 0.7, 0.9, 1.0, 1.1, 1.3))
    fault = dice.choice(("", "", "", "dead"))
    lamp = replace(plan.learnt, mains=((0, mains),), bulb=dice.choice((1, 2)), fault=fault)
    return fitted(lamp, sensor)


def _happen(dice: random.Random, bench: Bench, plan: Scenario) -> str:
    """One thing."""
    what = dice.choice(("fit", "fit", "fit", "good", "press", "pause", "cut", "hang"))
    if what == "fit":
        bench.fit(_spoilt(dice, plan))
    elif what == "good":
        bench.fit(plan.fitted[0])
    elif what == "press":
        bench.tap(dice.choice((60, 150, 1_500)))
    elif what == "pause":
        bench.pause(dice.choice((20, 200, 2_000)))
    elif what == "hang" and dice.random() < 0.3:
        bench.hang()
    elif what == "cut" and dice.random() < 0.5:
        bench.cut_power()
        bench.switch_on()
    return what


def _lights(dice: random.Random, bench: Bench, plan: Scenario, counts: Counter[str]) -> None:
    for _ in range(_LIGHTS):
        bench.tap()
        for _ in range(dice.randint(0, 4)):
            bench.run_for(dice.uniform(20, 900))
            counts[_happen(dice, bench, plan)] += 1
        bench.run_for(6_000)
        bench.hold()
        bench.run_for(1_500)


def lit_faults(seed: int) -> Outcome:
    """For `make soak`."""
    dice, counts, breaches = random.Random(seed), Counter[str](), []
    plan = scenario(seed * 8, 0, asked_s=dice.choice((0.4, 1.0, 2.5)))
    dead_ms = max(0, round(truth.steady([plan.learnt])[0].dead_s * 1000))
    step = LIGHT | {"time_ms": round(plan.asked_s * 1000), "dead_ms": dead_ms}
    with tempfile.TemporaryDirectory() as place, learnt_bench(Path(place), plan, [step] * _LIGHTS) as bench:
        replay = f"python -m tests.soak lit-faults {seed}"
        judges = Referee(bench, replay), SheetLedger(bench, replay)
        try:
            _lights(dice, bench, plan, counts)
            for judge in judges:
                judge.finish()
        except BreachError as error:
            breaches.append(str(error))
        counts.update(f"dose {record['how']}" for record in records(bench, "dose"))
    return _LIGHTS, breaches, counts
