"""Starts the box on CPython, where it must put its own modules in the place of others.

The process' input and output are the channel; the firmware gets a link of its own, whose bytes come as
commands and go as events.
"""

import gc
import importlib.util
import json
import os
import sys
import types

import channel

_POLLIN = 1
_POLLOUT = 4


class _Source:
    """What the computer has sent."""

    def __init__(self):
        self.waiting = bytearray()

    def readinto(self, buffer):
        """At most as many bytes as fit; 0 when there are none."""
        count = min(len(buffer), len(self.waiting))
        buffer[:count] = self.waiting[:count]
        del self.waiting[:count]
        return count


class _Sink:
    """What the computer will read, told as events."""

    def __init__(self, worlds):
        self._worlds = worlds
        self.open = True

    def write(self, data):
        """Bytes out."""
        self._worlds.world.emit("out", bytes(data).hex())
        return len(data)


class _Poll:
    """`select.poll` over the two."""

    def __init__(self):
        self._streams = []

    def register(self, stream, events):
        """Ask about a stream from now on."""
        self._streams.append((stream, events))

    def poll(self, timeout_ms=-1):
        """The streams that are ready."""
        return [(stream, events) for stream, events in self._streams if _is_ready(stream, events)]


def _is_ready(stream, events):
    return bool(stream.waiting) if events & _POLLIN else stream.open


class _Sabotage(Exception):
    """Of no kind that any line expects; what a text that is no JSON raises, say, means something there."""


class _Saboteur:
    """Counts the firmware's lines from now on: raises at the n-th, or tells them when it is asked to."""

    def __init__(self, worlds):
        self._worlds = worlds
        self._count = 0
        self._raise_at = 0
        self._met = {}  # a line and the lines that called it -> its first and its last count

    def command(self, words):
        """sabotage <n> | sabotage count | sabotage tell"""
        if words[0] == "tell":
            sys.settrace(None)
            for (place, *_), (first, last) in self._met.items():
                self._worlds.world.emit("line", "%d %d %s:%d" % (first, last, *place))
            return
        self._count = 0
        self._raise_at = 0 if words[0] == "count" else int(words[0])
        sys.settrace(self._trace)

    def _trace(self, frame, event, argument):
        if not _is_firmware(frame):
            return None
        if event == "line":
            self._count += 1
            if not self._raise_at:
                self._met.setdefault(_chain(frame), [self._count, 0])[1] = self._count
            elif self._count == self._raise_at:
                sys.settrace(None)
                place = "%s:%d" % _place(frame)
                self._worlds.world.emit("sabotaged", place)
                raise _Sabotage("raised by the bench at " + place)
        return self._trace


def _is_firmware(frame):
    folder = os.path.basename(os.path.dirname(frame.f_code.co_filename))
    return folder in ("controller", "footlight_core")


def _place(frame):
    return os.path.basename(frame.f_code.co_filename), frame.f_lineno


def _chain(frame):
    places = []
    while frame:
        if _is_firmware(frame):
            places.append(_place(frame))
        frame = frame.f_back
    return tuple(places)


def _link_commands(worlds, source, sink):
    def take(words):
        source.waiting += bytes.fromhex(words[0])
        worlds.world.awake = True

    def stall(words):
        sink.open = words[0] == "0"
        worlds.world.awake = True

    return {"bytes": take, "stall": stall, "sabotage": _Saboteur(worlds).command}


def _replace(name):
    # A module that is built in is found before any path; so ours is loaded by its file.
    path = os.path.join(os.path.dirname(os.path.abspath(__file__)), name + ".py")
    spec = importlib.util.spec_from_file_location(name, path)
    module = importlib.util.module_from_spec(spec)
    sys.modules[name] = module
    spec.loader.exec_module(module)


def _module(name, **names):
    module = types.ModuleType(name)
    for key, value in names.items():
        setattr(module, key, value)
    sys.modules[name] = module


def _statvfs(path):
    # A littlefs of this size, told in its own blocks.
    import flash

    used = 2
    for folder, _, names in os.walk(os.curdir):
        used += sum(1 + os.stat(os.path.join(folder, name)).st_size // flash.BLOCK_BYTES for name in names)
    free = max(0, flash.BLOCKS - used)
    return (flash.BLOCK_BYTES, flash.BLOCK_BYTES, flash.BLOCKS, free, free, 0, 0, 0, 0, 255)


def main():
    """The box, from power on to its end."""
    options = json.loads(os.environ["FOOTLIGHT_BOX"])
    read_line, write = channel.open_channel()
    # The interpreter's own `time` has been imported long since; the firmware shall find ours.
    _replace("time")

    import world as worlds

    source, sink = _Source(), _Sink(worlds)
    sys.stdin = types.SimpleNamespace(buffer=source)
    sys.stdout = types.SimpleNamespace(buffer=sink, write=lambda text: None, flush=lambda: None)
    _module("select", poll=_Poll, POLLIN=_POLLIN, POLLOUT=_POLLOUT)
    _module("micropython", kbd_intr=lambda byte: None, const=lambda value: value)
    gc.mem_free = lambda: options["heap_bytes"]
    os.statvfs = _statvfs
    os.rename = os.replace
    import start

    start.power_on(options, read_line, write, _link_commands(worlds, source, sink))


if __name__ == "__main__":
    main()
