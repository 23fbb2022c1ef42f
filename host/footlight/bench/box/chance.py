"""Chance in the box: `os.urandom` gives what follows from the seed, so that every run can be repeated.

Also the file system depends on it: littlefs begins to look for free blocks where the contents of the flash
tell it to, and a random number lies among them.
"""

import hashlib
import os
import sys


class _Chance:
    def __init__(self, seed):
        self._state = seed

    def urandom(self, count):
        """So many bytes."""
        found = b""
        while len(found) < count:
            self._state = hashlib.sha256(self._state).digest()
            found += self._state
        return found[:count]


class _Os:
    """The module `os`, but for its chance. On MicroPython no function of a module can be replaced."""

    def __init__(self, chance):
        self.urandom = chance.urandom

    def __getattr__(self, name):
        return getattr(os, name)


def begin(seed):
    """From now on. `seed`: bytes."""
    chance = _Chance(seed)
    if sys.implementation.name == "micropython":
        sys.modules["os"] = _Os(chance)
    else:
        os.urandom = chance.urandom
