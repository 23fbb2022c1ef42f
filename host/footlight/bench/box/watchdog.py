"""The watchdog, its scratch registers, and what a reset leaves.

Addresses are those of the RP2040 (data sheet, 4.7): CTRL and SCRATCH0 to 7, with the chip's aliases for
setting and clearing bits.
"""

import world as _worlds

_BASE = 0x40058000
_CTRL = _BASE
_SCRATCH0 = _BASE + 0x0C
_CTRL_SET = _CTRL + 0x2000
_CTRL_CLEAR = _CTRL + 0x3000
_ENABLE = 1 << 30


class _Registers:
    def __init__(self):
        self.words = {}

    def __getitem__(self, address):
        return self.words.get(address, 0)

    def __setitem__(self, address, word):
        # Nothing is allocated here once a register is known: the firmware notes how a light goes on.
        if address == _CTRL_SET:
            self._control(self[_CTRL] | word)
        elif address == _CTRL_CLEAR:
            self._control(self[_CTRL] & ~word)
        elif address == _CTRL:
            self._control(word)
        else:
            self.words[address] = word

    def _control(self, word):
        self.words[_CTRL] = word
        if not word & _ENABLE:
            _dog.stop()


class _Dog:
    def __init__(self):
        self.timeout_us = 0
        self._entry = None

    def start(self, timeout_us):
        self.timeout_us = timeout_us
        mem32.words[_CTRL] = mem32.words.get(_CTRL, 0) | _ENABLE
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
    return bool(mem32[_CTRL] & _ENABLE)


def restart(why):
    """The chip starts anew: outputs fall, scratch registers stay. Never returns."""
    scratch = [str(mem32[_SCRATCH0 + 4 * index]) for index in range(8)]
    _worlds.world.die("reset", why + " " + " ".join(scratch))


def keep(words):
    """What the scratch registers hold after a reset."""
    for index, word in enumerate(words):
        mem32.words[_SCRATCH0 + 4 * index] = word
