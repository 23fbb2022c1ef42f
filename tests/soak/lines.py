"""The campaign of exceptions: one at every line of the safety path, each by every way that leads to it."""

import tempfile
from collections import Counter
from pathlib import Path

from tests.controller.sabotage import PATHS, lines, trial
from tests.soak.bits import Outcome

A_SEED = 40
# The longest path has about 3200 lines; a seed beyond the end of its path finds nothing to do.
SEEDS = 85 * len(PATHS)


def exceptions(seed: int) -> Outcome:
    """Forty lines of one path: first runs of all lines come in the lower seeds, last runs in the higher."""
    path = list(PATHS)[seed % len(PATHS)]
    block = seed // len(PATHS)
    breaches, counts = [], Counter[str]()
    with tempfile.TemporaryDirectory() as folder:
        mine = lines(path, Path(folder) / "all")[block * A_SEED : (block + 1) * A_SEED]
        for line in mine:
            place, wrong = trial(path, line, Path(folder) / str(line))
            counts[path] += 1
            counts["never reached"] += not place
            breaches += [f"{path}, line {line}, {place} (seed {seed}): {text}" for text in wrong]
    return len(mine), breaches, +counts
