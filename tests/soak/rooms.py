"""The campaign on the bench: 15 minutes with faults of every kind in any order, judged by the referee."""

import random
import sys
import tempfile
from collections import Counter
from pathlib import Path

from tests.controller.stage import BATH, LIGHT, armed, program
from tests.soak.bits import Outcome
from tests.soak.mishaps import COMMON, RARE

from footlight.bench import Bench, sheet_ledger
from footlight.bench import events as ev
from footlight.bench.referee import BreachError, watch

RUN_MS = 15 * 60_000
RARITY = 0.12
PROGRAM = program(
    LIGHT,
    BATH | {"time_ms": 8_000, "lift_ms": 3_000},
    {"kind": "judge", "name": "bleach", "show": "BLEACH", "least_ms": 3_000, "most_ms": 60_000},
    LIGHT | {"time_ms": 1_500},
    BATH | {"white": 1},
)


def faults(seed: int) -> Outcome:
    """One run of a quarter of an hour; its seed is all that it depends on."""
    dice, breaches, counts = random.Random(seed), [], Counter[str]()
    with tempfile.TemporaryDirectory() as folder:
        try:
            with armed(Path(folder), PROGRAM, polls=seed % 8 == 1) as bench:
                _run(bench, dice, seed, counts)
        except BreachError as error:
            breaches.append(str(error))
    return 1, breaches, counts


def _run(bench: Bench, dice: random.Random, seed: int, counts: Counter[str]) -> None:
    replay = f"python -m tests.soak faults {seed}"
    judges = watch(bench, replay), sheet_ledger.watch(bench, replay)
    while bench.now_ms < RUN_MS:
        action = dice.choice(RARE if dice.random() < RARITY else COMMON)
        action(bench, dice)
        counts[action.__name__] += 1
        if not bench.is_on:
            raise BreachError(f"{action.__name__} switched it off: {bench.end} (seed {seed})")
    bench.release()
    bench.run_for(130_000)
    for judge in judges:
        judge.finish()
    if bench.lamp:
        raise BreachError(f"it does not end in the dark (seed {seed})")
    counts["lights"] += sum(1 for event in bench.events if event.kind == ev.GATE and event.value)
    counts["virtual minutes"] += bench.now_ms // 60_000


if __name__ == "__main__":
    print(faults(int(sys.argv[1])))
