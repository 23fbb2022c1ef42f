# type: ignore - for MicroPython
"""The lamp's state machine as far as lamp.py sees it: it ends by count, by a word, or at the rest contact."""

import time

from machine import level_of, tell


class PIO:
    OUT_LOW, SHIFT_RIGHT, SHIFT_LEFT = 0, 1, 0


def asm_pio(**options):
    return lambda program: program


class StateMachine:
    def __init__(self, number):
        self._words, self._result = [], []
        self._running = self._lit = False

    def init(self, program, freq, sideset_base=None, jmp_pin=None):
        self._rest = jmp_pin and jmp_pin.number

    def put(self, word):
        self._words.append(word)

    def active(self, on):
        if on and not self._running:
            self._ticks = self._words.pop(0)
            self._start_us = time.ticks_us()
            self._lit = True
            tell("lamp 1")
        self._running = on

    def tx_fifo(self):
        return len(self._words)

    def rx_fifo(self):
        if self._lit:
            ticks = time.ticks_diff(time.ticks_us(), self._start_us) // 10
            if self._words or ticks >= self._ticks or level_of(self._rest):
                self._lit = False
                tell("lamp 0")
                self._result.append((max(0, self._ticks - ticks) - 1) & 0xFFFFFF)
        return len(self._result)

    def get(self):
        return self._result.pop(0)

    def exec(self, text):
        self._words.clear()


class DMA:
    """No light is counted here, so there is nothing to carry."""

    def active(self, on):
        pass
