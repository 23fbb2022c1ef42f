"""Virtual time against the wall clock: the same bench in real time, or faster."""

import threading
import time
from collections.abc import Callable

from footlight.bench.bench import Bench

# No grant is longer than this of wall time, so that a foot and a byte are never kept waiting.
_LONGEST_S = 0.05


class Pace:
    """Grants a bench time as the wall clock goes. `speed`: virtual seconds for each second."""

    def __init__(self, bench: Bench, speed: float = 1.0, clock: Callable[[], float] = time.monotonic) -> None:
        self.speed = speed
        self._bench = bench
        self._clock = clock
        self._last_s = clock()
        self.stopped = threading.Event()  # nobody lets time pass any more
        self._later: list[tuple[int, Callable[[], None]]] = []

    @property
    def speed(self) -> float:
        """Virtual seconds for each second; may be changed at any time."""
        return self._speed

    @speed.setter
    def speed(self, speed: float) -> None:
        if not speed > 0:
            raise ValueError(f"speed {speed}; a pace is above 0")
        self._speed = speed

    def after(self, span_ms: float, action: Callable[[], None]) -> None:
        """Do something so much later in the bench's time [ms], to the microsecond at any speed."""
        with self._bench.lock:
            self._later.append((self._bench.now_us + round(span_ms * 1000), action))
            self._later.sort(key=lambda entry: entry[0])

    def step(self) -> None:
        """Grant what has passed since the last step. What a slow machine cannot make up is let go."""
        now_s = self._clock()
        passed_s = min(now_s - self._last_s, _LONGEST_S)
        self._last_s = now_s
        with self._bench.lock:
            self._run_until(self._bench.now_us + round(passed_s * self._speed * 1_000_000))

    def _run_until(self, until_us: int) -> None:
        while self._later and self._later[0][0] <= until_us:
            at_us, action = self._later.pop(0)
            self._bench.run_until(at_us / 1000)
            action()
        self._bench.run_until(until_us / 1000)
