"""Four MAX7219 in a row behind a shift register: what was latched is told when time moves on.

Of what is shifted in between two rises of the select line, the last eight bytes count: two for each chip.
A `frame` event holds all that was latched since the last one, in hex; the driver knows its registers.
"""

import binascii

import machine as _machine
import world as _worlds

_CHAIN_BYTES = 8
# Some twenty pictures. A computer's many requests, answered in one moment, draw hundreds: more than the heap
# holds in one piece, and it would be the firmware that is told so.
_MOST_BYTES = 2048


class Matrix:
    """Listens to one bus and one select line."""

    def __init__(self, spi, select):
        self._shift = b"\x00" * _CHAIN_BYTES
        self._latched = bytearray()
        _machine.SPI.sinks[spi] = self._shifted
        _machine.listen(select, self._selected)
        _worlds.world.before_time_passes.append(self._tell)

    def _shifted(self, data):
        if len(data) == _CHAIN_BYTES:
            self._shift = bytes(data)
        else:
            self._shift = (self._shift + bytes(data))[-_CHAIN_BYTES:]

    def _selected(self, level):
        if level:
            self._latched.extend(self._shift)
            if len(self._latched) >= _MOST_BYTES:
                self._tell()

    def _tell(self):
        if self._latched:
            text = binascii.hexlify(self._latched).decode()
            self._latched = bytearray()
            _worlds.world.emit("frame", text)
