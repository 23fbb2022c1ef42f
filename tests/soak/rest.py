"""The campaign of power cuts at rest: programs of up to five steps and three sheets, cut up to four times."""

import random
from collections import Counter

from tests.controller.in_process import rest
from tests.soak.bits import Outcome

RUNS = 500


def cuts(seed: int) -> Outcome:
    """Five hundred runs."""
    dice, breaches, counts = random.Random(seed), [], Counter[str]()
    for run in range(RUNS):
        kinds = tuple(dice.choice(tuple(rest.KINDS)) for _ in range(dice.randrange(1, 6)))
        where = tuple((dice.randrange(9), dice.randrange(4)) for _ in range(dice.randrange(1, 5)))
        sheets = dice.choice((1, 1, 1, 2, 3))
        try:
            life = rest.carried_out(kinds, run, where, sheets)
        except rest.RestError as error:
            breaches.append(f"{kinds} {where} {sheets} sheets, run {run} of seed {seed}: {error}")
            continue
        counts["cuts"] += len(where)
        counts["lights"] += len(life.truth.given_ms)
    return RUNS, breaches, counts
