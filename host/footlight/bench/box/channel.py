"""Lines between the box and its driver: events out, commands in.

On MicroPython two pipes inherited by number, so that the process' own input and output stay free for the
link; on CPython, also where pipes cannot be inherited, the process' own input and output.
"""

import os
import sys


def open_channel():
    """-> (read line, write bytes)."""
    if sys.implementation.name == "micropython":
        source = open(int(os.getenv("FOOTLIGHT_COMMANDS")), "rb")
        sink = open(int(os.getenv("FOOTLIGHT_EVENTS")), "wb")
        return source.readline, sink.write
    source, sink = sys.stdin.buffer, sys.stdout.buffer

    def write(data):
        sink.write(data)
        sink.flush()

    return source.readline, write
