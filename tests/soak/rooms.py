"""The campaign on the bench: a run with faults of every kind in any order, judged by the referee."""

import random
import sys
import tempfile
from collections import Counter
from pathlib import Path

from tests.controller.stage import armed
from tests.soak.bits import Outcome
from tests.system import test_fuzz as feet

from footlight.bench import Bench
from footlight.bench import events as ev
from footlight.bench.referee import BreachError, watch

ACTIONS = 60


def lose_power_in_a_write(bench: Bench, dice: random.Random) -> None:
    """At one of the next operations of the flash, of which a part happens; then power again."""
    if bench.interpreter != "micropython":
        return
    bench.tell_box(f"flash cut {dice.randrange(1, 9)} {dice.choice((0, 30, 70, 100))}")
    feet.hold(bench, dice)
    feet.tap(bench, dice)
    bench.run_for(3_000)
    if not bench.is_on:
        bench.run_for(dice.randrange(1, 5_000))
    else:
        bench.cut_power()
    bench.switch_on()
    bench.run_for(50)


def lamp_fails(bench: Bench, dice: random.Random) -> None:
    """The sensor sees a lamp that stays dark, or burns for ever, for a while."""
    bench.sense(dice.choice((0.0, 3.0)))
    bench.run_for(dice.choice((50, 2_500)))
    bench.sense(0.0)


def display_is_disturbed(bench: Bench, dice: random.Random) -> None:
    """Noise of the relay in its registers."""
    bench.panel.disturb()
    bench.run_for(dice.choice((10, 1_100)))


RARE = (*feet.RARE, lose_power_in_a_write, lamp_fails, display_is_disturbed)


def faults(seed: int) -> Outcome:
    """One run of about a quarter of an hour; its seed is all that it depends on."""
    dice, breaches, counts = random.Random(seed), [], Counter[str]()
    with tempfile.TemporaryDirectory() as folder:
        try:
            with armed(Path(folder), feet.PROGRAM, polls=seed % 2 == 1) as bench:
                _run(bench, dice, seed, counts)
        except BreachError as error:
            breaches.append(str(error))
    return 1, breaches, counts


def _run(bench: Bench, dice: random.Random, seed: int, counts: Counter[str]) -> None:
    referee = watch(bench, f"python -m tests.soak faults {seed}")
    for _ in range(ACTIONS):
        action = dice.choice(RARE if dice.random() < 0.15 else feet.COMMON)
        action(bench, dice)
        counts[action.__name__] += 1
        if not bench.is_on:
            raise BreachError(f"{action.__name__} switched it off: {bench.end} (seed {seed})")
    bench.release()
    bench.run_for(130_000)
    referee.finish()
    if bench.lamp:
        raise BreachError(f"it does not end in the dark (seed {seed})")
    counts["lights"] += sum(1 for event in bench.events if event.kind == ev.GATE and event.value)
    counts["virtual minutes"] += bench.now_ms // 60_000


if __name__ == "__main__":
    print(faults(int(sys.argv[1])))
