"""Single key strokes from the terminal, with the key's release where the terminal tells it.

A terminal that knows the keyboard protocol of progressive enhancement reports presses and releases as
`CSI code ; modifiers : event u`; it is asked for by `CSI > 11 u` (escape codes that are not ambiguous,
events, and for every key) and given back by `CSI < u`. Others ignore that, and send the plain character.
"""

import contextlib
import re
import sys
from collections.abc import Iterator
from dataclasses import dataclass

_ASK = "\x1b[>11u"
_GIVE_BACK = "\x1b[<u"
_REPORT = re.compile(r"\x1b\[(\d+)(?::\d*)*(?:;(\d*)(?::(\d))?)?(?:;[\d:]*)?u")
_CTRL = 4  # in the modifiers, which are sent plus one
STOP = "\x03"  # Ctrl-C: such a terminal reports it as a key, and no signal comes
_EVENTS = {None: "down", "1": "down", "2": "repeat", "3": "up"}


@dataclass(frozen=True)
class Stroke:
    """A key and what it did: `plain` (no release will be told), `down`, `repeat` or `up`."""

    key: str
    event: str


def parse(text: str) -> list[Stroke]:
    """Characters as they came -> strokes; escape sequences that mean nothing here are dropped."""
    strokes = []
    while text:
        report = _REPORT.match(text)
        if report:
            strokes.append(_reported(report))
            text = text[report.end() :]
        elif text[0] == "\x1b":
            text = re.sub(r"^\x1b(\[[0-9;:]*[A-Za-z~]?)?", "", text, count=1)
        else:
            strokes.append(Stroke(text[0], "plain"))
            text = text[1:]
    return strokes


def _reported(report: re.Match[str]) -> Stroke:
    code = int(report[1])
    held = int(report[2] or 1) - 1
    key = chr(code & 0x1F) if held & _CTRL and chr(code).isalpha() else chr(code)
    return Stroke(key, _EVENTS.get(report[3], "down"))


@contextlib.contextmanager
def reading() -> Iterator["_Reader"]:
    """A reader of strokes; the terminal is put back as it was, whatever happens."""
    reader = _WindowsReader() if sys.platform == "win32" else _UnixReader()
    with reader:
        yield reader


class _Reader:
    def __enter__(self):
        return self

    def __exit__(self, *exc):
        return None

    def strokes(self) -> list[Stroke]:
        """What was typed since the last look; never waits."""
        raise NotImplementedError


class _UnixReader(_Reader):
    def __enter__(self):
        import termios
        import tty

        self._fd = sys.stdin.fileno()
        self._before = termios.tcgetattr(self._fd)
        tty.setcbreak(self._fd)
        sys.stdout.write(_ASK)
        sys.stdout.flush()
        return self

    def __exit__(self, *exc):
        import termios

        sys.stdout.write(_GIVE_BACK)
        sys.stdout.flush()
        termios.tcsetattr(self._fd, termios.TCSADRAIN, self._before)

    def strokes(self) -> list[Stroke]:
        import os
        import select

        text = ""
        while select.select([self._fd], [], [], 0)[0]:
            data = os.read(self._fd, 256)
            if not data:
                break
            text += data.decode(errors="ignore")
        return parse(text)


class _WindowsReader(_Reader):
    def strokes(self) -> list[Stroke]:
        import msvcrt

        text = ""
        while msvcrt.kbhit():  # pyright: ignore[reportAttributeAccessIssue]
            text += msvcrt.getwch()  # pyright: ignore[reportAttributeAccessIssue]
        return parse(text)
