"""The date in a page: an invented evening that goes on with the bench's time."""

from collections.abc import Callable

# Friday 6 March 2026, 18:00 UTC: invented, and always the same.
EVENING_S = 1_772_820_000
# What a person takes from one command to the next.
TYPING_S = 20


class Clock:
    """Seconds since 1970. `passed_s` tells what has passed on the bench [s]."""

    def __init__(self, start_s: float = EVENING_S) -> None:
        self._start_s = start_s
        self.passed_s: Callable[[], float] = lambda: 0.0

    def now(self) -> float:
        """The time of day [s since 1970]."""
        return self._start_s + self.passed_s()

    def later(self, span_s: float) -> None:
        """Let so much pass outside of the bench [s]."""
        self._start_s += span_s
