"""The one file that knows that ticks wrap: milliseconds since boot, and rest until something is due."""

import time

from footlight_core import const

NEVER_MS = const(-1)

_POLL_MS = const(10)
# The longest rest on a machine that wakes on its own inputs; the watchdog wants to be fed.
_REST_MS = const(1000)


class Clock:
    """Counts from 0 at boot and never wraps. Look at it at least once in six days."""

    def __init__(self, wakes_on_input=False):
        # Such a machine (the bench) sleeps right up to what is due; the chip polls its pedal.
        self.poll_ms = _REST_MS if wakes_on_input else _POLL_MS
        self._ticks = time.ticks_ms()
        self._now_ms = 0

    def now_ms(self):
        """Time since boot [ms]."""
        ticks = time.ticks_ms()
        self._now_ms += time.ticks_diff(ticks, self._ticks)
        self._ticks = ticks
        return self._now_ms

    def ticks_us(self):
        """A moment, for `since_us`."""
        return time.ticks_us()

    def since_us(self, ticks):
        """How long that moment is past [us], up to nine minutes."""
        return time.ticks_diff(time.ticks_us(), ticks)

    def rest_until(self, due_ms):
        """Sleep until `due_ms`, or NEVER_MS, but no longer than one poll."""
        rest_ms = self.poll_ms
        if due_ms != NEVER_MS:
            rest_ms = min(rest_ms, due_ms - self.now_ms())
        if rest_ms > 0:
            time.sleep_ms(rest_ms)
