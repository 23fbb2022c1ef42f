"""How much light the lamp has had in the last ten minutes: a lamp house has a limit to its heat."""

from . import const
from .dose import cap_ms

WINDOW_MS = const(600_000)
_KEPT = const(48)


class Duty:
    """A ring of the last exposures. A full ring counts its oldest one for ever: on the safe side."""

    def __init__(self):
        self._end_ms = [0] * _KEPT
        self._on_ms = [0] * _KEPT
        self._next = 0

    def add(self, end_ms, on_ms):
        """An exposure of `on_ms` ended at `end_ms`."""
        slot = self._next
        if self._on_ms[slot] and end_ms - self._end_ms[slot] < WINDOW_MS:
            on_ms += self._on_ms[slot]
        self._end_ms[slot] = end_ms
        self._on_ms[slot] = on_ms
        self._next = (slot + 1) % _KEPT

    def shift(self, by_ms):
        """Time is counted from another moment: every end is `by_ms` later."""
        for slot in range(_KEPT):
            self._end_ms[slot] += by_ms

    def used_ms(self, now_ms):
        """Light in the ten minutes before `now_ms` [ms]; an exposure that began before them counts whole."""
        used_ms = 0
        for slot in range(_KEPT):
            if now_ms - self._end_ms[slot] < WINDOW_MS:
                used_ms += self._on_ms[slot]
        return used_ms

    def wait_ms(self, now_ms, wanted_ms, most_ms):
        """How long until `wanted_ms` fit under `most_ms` [ms]; 0 = now."""
        over_ms = self.used_ms(now_ms) + wanted_ms - most_ms
        if over_ms <= 0:
            return 0
        wait_ms = 0
        for step in range(_KEPT):
            slot = (self._next + step) % _KEPT
            left_ms = self._end_ms[slot] + WINDOW_MS - now_ms
            if self._on_ms[slot] and left_ms > 0 and over_ms > 0:
                over_ms -= self._on_ms[slot]
                wait_ms = left_ms
        return wait_ms


class Past:
    """The lamp's last lights, as the journal tells them to a controller that has just started.

    Feed it records in order, then `end`. How long the controller was off nobody knows: it counts as no time
    at all. An exposure whose end was never written counts whole, up to the moment of the next start.
    """

    def __init__(self, duty, counts=False):
        self._duty = duty
        self._counts = counts  # may a light have lasted longer than announced?
        self._clock_ms = 0  # time with the power on, over all starts
        self._t_ms = 0  # of the last record, since its own start
        self._open_ms = 0  # gate time of an intent that no record answers

    def feed(self, record):
        """One whole record (dict)."""
        if record["k"] == "boot":
            self._start()
        self._clock_ms += max(0, record["t"] - self._t_ms)
        self._t_ms = record["t"]
        if record["k"] == "intent":
            self._add(self._open_ms)
            self._open_ms = cap_ms(record["gate_ms"]) if self._counts else record["gate_ms"]
        elif record["k"] in ("gave", "focus"):
            self._open_ms = 0
            self._add(record["gate_ms"])

    def end(self):
        """That was all: the present start is time 0 from now on."""
        self._start()
        self._duty.shift(-self._clock_ms)

    def _start(self):
        self._t_ms = 0
        self._add(self._open_ms)
        self._open_ms = 0

    def _add(self, gate_ms):
        if gate_ms:
            self._duty.add(self._clock_ms, gate_ms)
