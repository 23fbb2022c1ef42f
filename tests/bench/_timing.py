"""Measuring that a noisy machine cannot spoil: both sides in turn, and the median of the ratios."""

import statistics
import subprocess
import time
from collections.abc import Callable, Sequence


def seconds(action: Callable[[], object]) -> float:
    """How long one call takes [s]."""
    start = time.perf_counter()
    action()
    return time.perf_counter() - start


def ratio(one: Callable[[], object], other: Callable[[], object], turns: int = 7) -> float:
    """Median of one/other over alternating turns, after one turn that is not counted."""
    pairs = [(seconds(one), seconds(other)) for _ in range(turns + 1)][1:]
    return statistics.median(first / second for first, second in pairs)


def process(command: Sequence[str]) -> Callable[[], object]:
    """A whole process as an action; what it prints is thrown away."""
    return lambda: subprocess.run(command, check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
