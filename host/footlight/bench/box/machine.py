"""The part of MicroPython's `machine` for the RP2040 that the firmware uses, as events and commands.

Inputs are levels that the driver sets (`pin`, `adc`); outputs are told as events under the name of their
pin. Pins float high or low by their pull until something drives them.
"""

import world as _worlds
from i2c import I2C as I2C
from watchdog import WDT as WDT
from watchdog import mem32 as mem32
from watchdog import restart as _restart

WAKES_ON_INPUT = True  # see `world`; the driver may turn it off to have the chip's own polling

PWRON_RESET = 1
WDT_RESET = 3

names = {}  # number of a pin -> name of its events
_levels = {}  # number of a pin -> level
_listeners = {}  # number of a pin -> functions called with a new level
analog = {}  # number of a pin -> reading of 0 to 65535
models = {}  # number of a pin -> function that makes its reading
legs = ()  # numbers of the gate's and the pump's pin
_lone = set()  # legs that the firmware has raised by itself, the other one down
by_hand = set()  # pins that the firmware last set by itself; the others are a state machine's, or pulses
_followed = {}  # analog pin -> what it reads while the gate is high, and how much later
cause = PWRON_RESET
unique = b"\x00" * 8


def drive_by_hand(number, level):
    """The firmware sets a pin by itself."""
    by_hand.add(number)
    drive(number, level)


def drive(number, level):
    """A pin takes a level; the lamp's hardware and the display may listen."""
    if _levels.get(number) == level:
        return
    _levels[number] = level
    if number in names:
        _tell(number, level)
    for listener in _listeners.get(number, ()):
        listener(level)


def _tell(number, level):
    # One leg alone, raised by the firmware and not by the state machine, is the trial: it lights nothing.
    other = legs[1 - legs.index(number)] if number in legs else None
    if level and other is not None and number in by_hand and not level_of(other):
        _lone.add(number)
    elif level and other in _lone:
        _lone.discard(other)
        _worlds.world.emit(names[other], "1")
    kind = "leg" if number in _lone else names[number]
    if not level:
        _lone.discard(number)
    _worlds.world.emit(kind, str(level))


def is_pumped():
    """Does the pump's pin carry pulses, and no level?"""
    return bool(legs) and legs[1] not in by_hand and level_of(legs[1]) == 1


def set_input(number, level):
    """What is outside gives a pin a level."""
    before, _levels[number] = level_of(number), level
    if level != before:
        for listener in _listeners.get(number, ()):
            listener(level)
        _worlds.world.awake = True


def level_of(number):
    """The present level of a pin."""
    return _levels.get(number, 0)


def listen(number, listener):
    """Have a function called at each change of a pin."""
    _listeners.setdefault(number, []).append(listener)


def _command_pin(words):
    # Kept even if it is what an undriven pin reads: from now on no pull moves it.
    set_input(int(words[0]), int(words[1]))


def _command_adc(words):
    analog[int(words[0])] = int(words[1])
    _worlds.world.awake = True


def _command_follow(words):
    # follow <analog pin> <gate's pin> <reading while it is high> <how much later it shows, us>
    analog_pin, gate, reading, delay_us = [int(word) for word in words]
    if analog_pin not in _followed:
        listen(gate, lambda level: _follow(analog_pin, level))
    _followed[analog_pin] = (reading, delay_us)


def _follow(analog_pin, level):
    reading, delay_us = _followed[analog_pin]

    def show(value):
        analog[analog_pin] = value
        _worlds.world.awake = True

    _worlds.world.after(delay_us, show, reading * level)


def begin():
    """Put the commands of this module in force."""
    _worlds.world.commands["follow"] = _command_follow
    _worlds.world.commands["pin"] = _command_pin
    _worlds.world.commands["adc"] = _command_adc


class Pin:
    """A pin of the chip."""

    IN = 0
    OUT = 1
    OPEN_DRAIN = 2
    ALT = 3
    PULL_UP = 1
    PULL_DOWN = 2

    def __init__(self, number, mode=-1, pull=-1, value=None):
        self.number = number
        self.init(mode, pull, value=value)

    def init(self, mode=-1, pull=-1, value=None):
        """Set direction, pull and level."""
        if pull == Pin.PULL_UP and self.number not in _levels:
            _levels[self.number] = 1
        if mode in (Pin.OUT, Pin.OPEN_DRAIN):
            drive_by_hand(self.number, 1 if value else 0)

    def value(self, level=None):
        """Read, or drive."""
        if level is None:
            return level_of(self.number)
        drive_by_hand(self.number, 1 if level else 0)
        return None

    __call__ = value

    def on(self):
        """Drive high."""
        drive_by_hand(self.number, 1)

    def off(self):
        """Drive low."""
        drive_by_hand(self.number, 0)

    high = on
    low = off

    def irq(self, handler=None, trigger=0, hard=False):
        """Refused: the pedal is polled."""
        raise NotImplementedError("this box has no pin interrupts")


class Signal:
    """A pin with its polarity."""

    def __init__(self, pin, invert=False):
        self._pin = pin
        self._invert = 1 if invert else 0

    def value(self, level=None):
        """The logical level."""
        if level is None:
            return self._pin.value() ^ self._invert
        return self._pin.value((1 if level else 0) ^ self._invert)

    __call__ = value

    def on(self):
        """Make active."""
        self.value(1)

    def off(self):
        """Make inactive."""
        self.value(0)


class PWM:
    """Pulse-width modulation: its frequency while it sounds, 0 when silent."""

    def __init__(self, pin, freq=0, duty_u16=0):
        self._number = pin.number
        self._hertz = freq
        self._duty = duty_u16
        self._told = 0
        if self._number in legs:
            self._pulse()

    def freq(self, hertz=None):
        """Read or set the frequency [Hz]."""
        if hertz is None:
            return self._hertz
        self._hertz = hertz
        self._tell()
        return None

    def duty_u16(self, duty=None):
        """Read or set the duty cycle (0 to 65535)."""
        if duty is None:
            return self._duty
        self._duty = duty
        self._tell()
        return None

    def deinit(self):
        """Fall silent."""
        self.duty_u16(0)

    def _tell(self):
        hertz = self._hertz if self._duty else 0
        if self._number in legs:
            self._pulse()
        elif hertz != self._told:
            self._told = hertz
            _worlds.world.emit(names.get(self._number, "pwm"), str(hertz))

    def _pulse(self):
        # The lamp's pump, started by the firmware itself and not by the state machine.
        drive_by_hand(self._number, 1 if self._duty else 0)
        by_hand.discard(self._number)


class SPI:
    """Bytes out; `display` picks them up."""

    sinks = {}  # number of a bus -> function called with the bytes

    def __init__(self, number, baudrate=1_000_000, **options):
        self._number = number

    def write(self, data):
        """Send bytes."""
        sink = SPI.sinks.get(self._number)
        if sink:
            sink(data)


class ADC:
    """A reading that the driver sets."""

    def __init__(self, pin):
        self._number = pin.number if isinstance(pin, Pin) else pin

    def read_u16(self):
        """The reading."""
        model = models.get(self._number)
        return model() if model else analog.get(self._number, 0)


def unique_id():
    """Eight bytes that are this controller's own."""
    return unique


def freq(hertz=None):
    """Clock of the processor [Hz]."""
    return 125_000_000


def idle():
    """Nothing to do."""


def reset():
    """Start anew, as after the watchdog; what registers hold is kept."""
    _restart("program")


def reset_cause():
    """Why the chip started."""
    return cause
