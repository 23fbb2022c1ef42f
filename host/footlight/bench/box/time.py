"""The part of MicroPython's `time` that the firmware uses, in virtual time; ticks wrap as the chip's do."""

import world as _worlds

_PERIOD = 1 << 30
_HALF = _PERIOD >> 1


def _since_boot_us():
    return _worlds.world.now_us - _worlds.world.start_us + _worlds.world.ticks_start_us


def ticks_us():
    """Microseconds, wrapping after 17.9 minutes."""
    return _since_boot_us() & (_PERIOD - 1)


def ticks_ms():
    """Milliseconds, wrapping after 12.4 days."""
    return _since_boot_us() // 1000 & (_PERIOD - 1)


def ticks_add(ticks, delta):
    """`ticks` moved on by `delta`."""
    return (ticks + delta) & (_PERIOD - 1)


def ticks_diff(later, earlier):
    """`later` - `earlier`, right while they are less than half a period apart."""
    return ((later - earlier + _HALF) & (_PERIOD - 1)) - _HALF


def sleep_us(span_us):
    """Let time pass."""
    _worlds.world.sleep_us(span_us)


def sleep_ms(span_ms):
    """Let time pass. Ends on a whole millisecond, so that what is due at one is seen at it exactly."""
    _worlds.world.sleep_us(span_ms * 1000 - _since_boot_us() % 1000 if span_ms > 0 else 0)


def sleep(span_s):
    """Let time pass."""
    _worlds.world.sleep_us(int(span_s * 1_000_000))


def time():
    """Seconds since switched on: the controller has no clock of the date."""
    return _since_boot_us() // 1_000_000
