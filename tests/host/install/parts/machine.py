# type: ignore - for MicroPython
"""What the firmware asks of the chip, on MicroPython's unix port, in real time.

Inputs stand in a file that the test writes, a line `number level`; every output is a line in another.
"""

import os

PWRON_RESET = 1
WDT_RESET = 3
# Numbers of hardware/pins.toml.
_GATE, _PUMP, _WHITE, _WHITE_READ, _COIL_HIGH, _COIL_LOW = 2, 3, 6, 8, 27, 28
_levels = {}  # of the outputs
_pumping = [False]
_INPUTS = os.getenv("BOARD_INPUTS")
_OUTPUTS = os.getenv("BOARD_OUTPUTS")


def tell(text):
    """Leave a line for the test."""
    with open(_OUTPUTS, "a") as file:
        file.write(text + "\n")


def level_of(number):
    """The level that the test gives a pin; 1 (pulled up) when it gives none."""
    with open(_INPUTS) as file:
        for line in file:
            pin, level = line.split()
            if int(pin) == number:
                return int(level)
    return 1


class Pin:
    IN, OUT, PULL_UP, PULL_DOWN = 0, 1, 1, 2

    def __init__(self, number, mode=-1, pull=-1, value=None):
        self.number = number
        if mode == Pin.OUT:
            self.value(value)

    def value(self, level=None):
        if level is None:
            # The white contact's coil pulls its read-back down while it is driven.
            return 1 - _levels.get(_WHITE, 0) if self.number == _WHITE_READ else level_of(self.number)
        _levels[self.number] = level
        if self.number != 17:  # the display's select line, thousands of times
            tell(f"pin {self.number} {level}")
        return level

    __call__ = value


class Signal:
    def __init__(self, pin, invert=False):
        self._pin, self._invert = pin, invert

    def value(self, level=None):
        if level is None:
            return self._pin.value() ^ self._invert
        return self._pin.value(level ^ self._invert)

    __call__ = value


class PWM:
    def __init__(self, pin, freq=0, duty_u16=0):
        self._freq = freq
        if pin.number == _PUMP:
            _pumping[0] = bool(duty_u16)

    def deinit(self):
        _pumping[0] = False

    def freq(self, hertz):
        self._freq = hertz

    def duty_u16(self, duty):
        tell(f"tone {self._freq if duty else 0}")


class SPI:
    def __init__(self, number, **options):
        pass

    def write(self, data):
        pass


class ADC:
    def __init__(self, pin):
        self._number = pin.number

    def read_u16(self):
        """Half of a leg's voltage, 65535 for 3.3 V: a good coil, at rest between two equal resistors."""
        if self._number not in (_COIL_HIGH, _COIL_LOW):
            return 0
        gate = _levels.get(_GATE, 0)
        if gate and _pumping[0]:
            volts = 5.0 if self._number == _COIL_HIGH else 0.0
        else:
            volts = 5.0 if gate else 0.0 if _pumping[0] else 2.5
        return int(volts / 2 / 3.3 * 65535)


class WDT:
    def __init__(self, timeout):
        tell("watchdog on")

    def feed(self):
        pass


class _Memory:
    """Registers; the watchdog's enable bit is told."""

    def __init__(self):
        self._words = {}

    def __getitem__(self, address):
        return self._words.get(address, 0)

    def __setitem__(self, address, word):
        if address == 0x4005B000:
            tell("watchdog off")
        if address == 0x4005800C and word:
            tell(f"reason {word & 0xFF}")
        self._words[address] = word


mem32 = _Memory()


def unique_id():
    return b"\x01\x02\x03\x04\x05\x06\x07\x08"


def reset_cause():
    return WDT_RESET


def reset():
    tell("reset")
    raise SystemExit
