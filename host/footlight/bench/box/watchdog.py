"""The watchdog, its scratch registers, and what a reset leaves.

Their addresses are the firmware's, which `tests/controller/in_process/test_guard.py` holds against the data
sheet.
"""

import world as _worlds

from controller import chip


class _Registers:
    def __init__(self):
        self.words = {}

    def __getitem__(self, address):
        return self.words.get(address, 0)

    def __setitem__(self, address, word):
        # Nothing is allocated here once a register is known: the firmware notes how a light goes on.
        if address == chip.WATCHDOG_CTRL_SET:
            self._control(self[chip.WATCHDOG_CTRL] | word)
        elif address == chip.WATCHDOG_CTRL_CLEAR:
            self._control(self[chip.WATCHDOG_CTRL] & ~word)
        elif address == chip.WATCHDOG_CTRL:
            self._control(word)
        else:
            self.words[address] = word

    def _control(self, word):
        self.words[chip.WATCHDOG_CTRL] = word
        if not word & chip.WATCHDOG_ENABLE:
            _dog.stop()


class _Dog:
    def __init__(self):
        self.timeout_us = 0
        self._entry = None

    def start(self, timeout_us):
        self.timeout_us = timeout_us
        mem32.words[chip.WATCHDOG_CTRL] = mem32.words.get(chip.WATCHDOG_CTRL, 0) | chip.WATCHDOG_ENABLE
        self.feed()
        _worlds.world.emit("watchdog", "1")

    def feed(self):
        if self._entry:
            _worlds.world.drop(self._entry)
        self._entry = _worlds.world.after(self.timeout_us, self._bite)

    def stop(self):
        if self._entry:
            _worlds.world.drop(self._entry)
            self._entry = None
            _worlds.world.emit("watchdog", "0")

    def _bite(self, _):
        restart("watchdog")


mem32 = _Registers()
_dog = _Dog()


class WDT:
    """The watchdog of the chip: once started it bites unless it is fed."""

    def __init__(self, id=0, timeout=5000):
        _dog.start(timeout * 1000)

    def feed(self):
        """Not yet."""
        _dog.feed()


def is_running():
    """Will the watchdog bite if it is not fed?"""
    return bool(mem32[chip.WATCHDOG_CTRL] & chip.WATCHDOG_ENABLE)


def restart(why):
    """The chip starts anew: outputs fall, scratch registers stay. Never returns."""
    scratch = [str(mem32[chip.SCRATCH0 + 4 * index]) for index in range(8)]
    _worlds.world.die("reset", why + " " + " ".join(scratch))


def keep(words):
    """What the scratch registers hold after a reset."""
    for index, word in enumerate(words):
        mem32.words[chip.SCRATCH0 + 4 * index] = word
