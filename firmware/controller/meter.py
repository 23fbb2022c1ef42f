"""The light sensor's part of a light: read, summed to a dose, its predicted end put into hardware."""

from controller.clock import NEVER_MS
from footlight_core import const
from footlight_core.dose import COUNTED, NOT_FITTED

_READINGS = const(8)  # so many make one look: their mean is finer than the converter's steps
_LOOK_MS = const(10)
_US_PER_TICK = const(10)
# So late the hardware's own end has failed, and the lamp is stopped from here.
_LATE_TICKS = const(3_000)


class Meter:
    """`read`: the sensor's reading, 0 to 65535. `clock`: for its microseconds. `known`: a sensor.Sensor.
    `dose`: a dose.Dose."""

    def __init__(self, read, clock, lamp, known, dose):
        self._read = read
        self._clock = clock
        self._lamp = lamp
        self._known = known
        self._dose = dose
        self._is_lit = False
        self._risen = 0
        self._due_ms = NEVER_MS

    def reading(self):
        """The mean of some readings."""
        total = 0
        for _ in range(_READINGS):
            total += self._read()
        return total // _READINGS

    def burns(self):
        """Does the lamp burn?"""
        return self.reading() >= self._known.threshold

    def counts(self, lamp):
        """May a light of this lamp be counted?"""
        return self._known.lamp(lamp) is not None

    def light(self, lamp, light_ms, gate_ms, most_ms, now_ms):
        """The lamp goes on for `light_ms` of its light, `gate_ms` by seconds, `most_ms` if it is counted."""
        dose = self._dose
        dose.arm(self._known.fitted, self._known.lamp(lamp), self.reading())
        dose.begin(light_ms, gate_ms, most_ms)
        if dose.how == COUNTED:
            self._lamp.start(most_ms, gate_ms)
        else:
            self._lamp.start(gate_ms)
        self._risen = self._clock.ticks_us()
        self._is_lit = dose.how != NOT_FITTED
        self._due_ms = now_ms + _LOOK_MS if self._is_lit else NEVER_MS

    def look(self, now_ms):
        """At every turn of the loop."""
        if self._due_ms == NEVER_MS:
            return
        self._due_ms = now_ms + _LOOK_MS
        reading, ticks = self.reading(), self._ticks()
        if self._is_lit:
            self._see(reading, ticks)
        else:
            self._dose.glow(reading, ticks)
            if not self._dose.is_glowing():
                self._due_ms = NEVER_MS

    def dark(self, gate_ms):
        """The gate was high for so long, and is low."""
        if self._is_lit:
            self._is_lit = False
            self._dose.end(gate_ms)

    def due_ms(self):
        """When to look again [ms], or NEVER_MS."""
        return self._due_ms

    def _see(self, reading, ticks):
        before = self._dose.how
        self._dose.see(reading, ticks)
        if before != COUNTED:
            return
        left = self._dose.end_ticks - self._ticks()
        self._lamp.end_in(max(0, left))
        if left < -_LATE_TICKS:
            self._lamp.stop()

    def _ticks(self):
        return self._clock.since_us(self._risen) // _US_PER_TICK
