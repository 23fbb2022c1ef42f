"""Virtual time against the wall clock: the same bench in real time, or faster."""

import time
from collections.abc import Callable

from footlight.bench.bench import Bench

# No grant is longer than this of wall time, so that a foot and a byte are never kept waiting.
_LONGEST_S = 0.05


class Pace:
    """Grants a bench time as the wall clock goes. `speed`: virtual seconds for each second."""

    def __init__(self, bench: Bench, speed: float = 1.0, clock: Callable[[], float] = time.monotonic) -> None:
        if not speed > 0:
            raise ValueError(f"speed {speed}; a pace is above 0")
        self._bench = bench
        self._speed = speed
        self._clock = clock
        self._last_s = clock()

    def step(self) -> None:
        """Grant what has passed since the last step. What a slow machine cannot make up is let go."""
        now_s = self._clock()
        passed_s = min(now_s - self._last_s, _LONGEST_S)
        self._last_s = now_s
        self._bench.run_for(passed_s * self._speed * 1000)
