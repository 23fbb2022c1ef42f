"""The bytes of the computer's cable, with no wait in either direction.

Each byte out is asked for first (`POLLOUT` promises room for one): a computer that holds the port open and
does not read would otherwise stop the firmware for half a second a write. What it does not take in time is
dropped, to the end of the reply.
"""

import select

from footlight_core import const

_NEVER_MS = const(-1)
_PATIENCE_MS = const(500)
_RETRY_MS = const(2)
# In one go: a byte takes 0.13 ms, and the pedal is waiting meanwhile.
_MOST_BYTES = const(96)


class Port:
    """`source` and `sink` are binary streams."""

    def __init__(self, source, sink):
        self._source = source
        self._sink = sink
        self._readable = select.poll()
        self._readable.register(source, select.POLLIN)
        self._writable = select.poll()
        self._writable.register(sink, select.POLLOUT)
        self._one = bytearray(1)
        self._out = b""
        self._sent = 0
        self._moved_ms = 0
        self._tried_ms = 0

    def read(self):
        """The next byte (int), or -1 when there is none."""
        if not self._readable.poll(0):
            return -1
        # One at a time: a longer read would wait for the rest.
        return self._one[0] if self._source.readinto(self._one) else -1

    def write(self, data, now_ms):
        """Take a reply to be sent; what is left of an earlier one is dropped."""
        self._out = data
        self._sent = 0
        self._moved_ms = now_ms

    def pump(self, now_ms):
        """Send some of what the computer takes now."""
        self._tried_ms = now_ms
        most = min(len(self._out), self._sent + _MOST_BYTES)
        while self._sent < most and self._writable.poll(0):
            self._sink.write(self._out[self._sent : self._sent + 1])
            self._sent += 1
            self._moved_ms = now_ms
        if self._sent == len(self._out) or now_ms - self._moved_ms >= _PATIENCE_MS:
            self._out = b""
            self._sent = 0

    def is_busy(self):
        """Is some of a reply still to be sent?"""
        return bool(self._out)

    def due_ms(self):
        """When to pump again [ms], or -1 for never."""
        return self._tried_ms + _RETRY_MS if self._out else _NEVER_MS
