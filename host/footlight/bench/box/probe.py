"""An ambient light sensor on the I²C, as one sold widely is (VEML7700).

Address and registers are from memory of its data sheet; 16 bits each, the low byte first.

    0  settings: bit 0 shut down (so after power-on), bits 6 to 9 time of integration, bits 11 and 12 gain
    4  light as the eye sees it    5  light unweighted    7  identity

A count is 0.0042 lx at twice the gain and 800 ms, and so on in proportion; 65 535 is the most. A result comes
at the end of each integration and is of the whole of it.
"""

import i2c
import lamp_house
import world as _worlds

ADDRESS = 0x10
_SETTINGS, _LIGHT, _WHITE, _IDENTITY = 0, 4, 5, 7
_NAME = 0xC481
_TIMES_MS = {0: 100, 1: 200, 2: 400, 3: 800, 8: 50, 12: 25}
_GAINS = (1.0, 2.0, 0.125, 0.25)
_FINEST_LX = 0.0042
_FULL = 65_535


class Chip:
    """Registers, and light that is integrated. `probe`: keys of `footlight.bench.lamp.Probe`."""

    def __init__(self, probe):
        self._probe = probe
        self._registers = {_SETTINGS: 1, _IDENTITY: _NAME}
        self._pointer = 0
        self._entry = None
        self._begin_eye_us = 0.0

    def follow(self, other):
        """The chip that stood here goes on in another light."""
        other._stop()
        self._registers, self._pointer = other._registers, other._pointer
        self._begin()

    def write(self, data):
        """A register's number, and what it shall hold."""
        self._pointer = data[0]
        if len(data) == 3:
            self._registers[data[0]] = data[1] | data[2] << 8
            if data[0] == _SETTINGS:
                self._stop()
                self._begin()

    def read(self, count):
        """Of the register that was named."""
        word = self._registers.get(self._pointer, 0)
        return (bytes([word & 255, word >> 8]) * count)[:count]

    def _stop(self):
        if self._entry:
            _worlds.world.drop(self._entry)
            self._entry = None

    def _begin(self):
        settings = self._registers[_SETTINGS]
        if settings & 1:
            return
        self._begin_eye_us = lamp_house.eye_us()
        self._time_ms = _TIMES_MS.get(settings >> 6 & 15, 100)
        self._entry = _worlds.world.after(self._time_ms * 1000, self._integrated)

    def _integrated(self, _):
        share = (lamp_house.eye_us() - self._begin_eye_us) / (self._time_ms * 1000)
        lux = self._probe["lux"] + self._probe["lamp_lux"] * share
        gain = _GAINS[self._registers[_SETTINGS] >> 11 & 3]
        count_lx = _FINEST_LX * 2 / gain * 800 / self._time_ms
        self._registers[_LIGHT] = self._registers[_WHITE] = min(_FULL, int(lux / count_lx))
        self._begin()


def fit(probe):
    """The probe from now on; None = nothing is plugged in."""
    before = i2c.chips.pop(ADDRESS, None)
    i2c.fit(probe["bus"] if probe else "")
    if probe and not probe["unplugged"]:
        chip = i2c.chips[ADDRESS] = Chip(probe)
        if before:
            chip.follow(before)
    elif before:
        before._stop()
