"""The keyboard interrupt, and what a tool that wants the prompt sends first.

No byte of the cable may end the program by itself, for noise has every byte in it. So the interrupt is off
for as long as the program runs, and the program itself hears the tool: a return, Ctrl-C once or twice, a
return, after half a second of silence and with nothing between. What follows is left for the prompt to read.
"""

import machine
import micropython

from footlight_core import const

_CTRL_C = const(3)
_RETURN = const(13)
_NO_BYTE = const(-1)
_SILENCE_MS = const(500)
# How far the tool has come.
_START = const(0)
_RETURNED = const(1)
_ONCE = const(2)
_TWICE = const(3)
_NOISE = const(4)


def set_interrupt(on):
    """May Ctrl-C stop the program?"""
    # The bench hears of it through its own `machine`, for `micropython` cannot be replaced.
    own = micropython.kbd_intr  # pyright: ignore[reportAttributeAccessIssue] - the stubs leave it out
    getattr(machine, "kbd_intr", own)(_CTRL_C if on else _NO_BYTE)


class Caller:
    """Whoever is at the other end of the cable: a tool that asks for the prompt, or anything else."""

    def __init__(self):
        self._place = _START
        self._heard_ms = 0

    def asks(self, byte, now_ms):
        """Has it asked for the prompt, with this byte?"""
        if now_ms - self._heard_ms >= _SILENCE_MS:
            self._place = _START
        self._heard_ms = now_ms
        place, self._place = self._place, _NOISE
        if byte == _RETURN:
            if place == _START:
                self._place = _RETURNED
            return place == _ONCE or place == _TWICE
        if byte == _CTRL_C and (place == _RETURNED or place == _ONCE):
            self._place = place + 1
        return False
