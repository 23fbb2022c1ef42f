"""The guard: the watchdog, what a reset leaves behind, and how much memory is free.

The watchdog is fed by the loop alone, once every task has reported; never from a timer, which would go on
while the loop hangs. Before a reset on purpose its reason goes into a scratch register, because the reset
cause alone cannot tell a hang from a reset that was asked for.
"""

import gc

import machine

from controller import chip
from footlight_core import const

TIMEOUT_MS = 4500
TASKS = const(4)

# Reasons of a start.
POWER = 0
HANG = 1
ASKED = 2
EXCEPTION = 3

_MAGIC = const(0x0F00)
_MAGIC_MASK = const(0xFF00)


class Guard:
    """One for each start of the controller."""

    def __init__(self):
        self._dog = None
        self._reported = [False] * TASKS
        self._reason, self._value = _left_behind()

    def start(self):
        """From now on the loop must feed it."""
        self._dog = machine.WDT(timeout=TIMEOUT_MS)

    def stop(self):
        """On the way to the prompt. The firmware's own watchdog has no stop; the enable bit has."""
        machine.mem32[chip.WATCHDOG_CTRL_CLEAR] = chip.WATCHDOG_ENABLE
        self._dog = None

    def report(self, task):
        """A task of the loop has done its turn."""
        self._reported[task] = True

    def feed_if_all_reported(self):
        """Feed, if every task has reported since the last time."""
        if self._dog is None:
            return False
        for task in range(TASKS):
            if not self._reported[task]:
                return False
        self._dog.feed()
        for task in range(TASKS):
            self._reported[task] = False
        return True

    def feed_for_writing(self):
        """Before each block that is written with the lamp off: an erase may take long."""
        if self._dog is not None:
            self._dog.feed()

    def note(self, reason, value):
        """What the next start shall say: why there was a reset, and a number (at most 65535)."""
        machine.mem32[chip.SCRATCH0] = _MAGIC | reason
        machine.mem32[chip.SCRATCH1] = value

    def last_reason(self):
        """(reason, value) of this start."""
        return self._reason, self._value

    def free_heap(self):
        """Free memory [bytes]."""
        return gc.mem_free()


def _left_behind():
    word, value = machine.mem32[chip.SCRATCH0], machine.mem32[chip.SCRATCH1]
    machine.mem32[chip.SCRATCH0] = 0
    if word & _MAGIC_MASK == _MAGIC:
        return word & ~_MAGIC_MASK, value
    return (HANG, 0) if machine.reset_cause() == machine.WDT_RESET else (POWER, 0)
