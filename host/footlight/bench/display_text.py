"""The frames of the display as text, read from their own bits: also where the brightness makes them dark.

A frame holds, for each register, a word of two bytes for each of four modules, first the farthest right.
"""

import re
from functools import lru_cache

from footlight.bench.glyphs import read_text

_MODULES = 4
_ROWS = 8
_LATCH_CHARS = 4 * _MODULES
_SECONDS = re.compile(r"(?:OFF )?(\d+(?:\.\d+)?)S?")
_EXACT = re.compile(r"(\d+(?:\.\d+)?)S?")
_BOUNDS = re.compile(r"(\d+(?:\.\d+)?)-(\d+(?:\.\d+)?)")

FAULT_WORDS = frozenset(
    ("STUCK", "WIRE", "WET", "UNPLUG", "NOLAMP", "NOTES", "ERROR", "MEMORY", "GATE", "FULL", "FOOT", "STRAY")
    + ("LOST", "FRESH", "PROMPT")
)
TURNS_BACK = frozenset(("BACK?", "AGAIN?", "LEAVE?"))


@lru_cache(maxsize=8192)
def frame_text(data: str) -> str:
    """The text of a frame in hex. Digits that it leaves out are dark in it."""
    bits = [0] * _ROWS
    for start in range(0, len(data) - _LATCH_CHARS + 1, _LATCH_CHARS):
        words = [data[start + 4 * word : start + 4 * word + 4] for word in range(_MODULES)]
        register = int(words[0][:2], 16) & 15
        if 1 <= register <= _ROWS:
            bits[register - 1] = int("".join(word[2:] for word in reversed(words)), 16)
    return read_text([[bool(row >> (31 - column) & 1) for column in range(32)] for row in bits])


@lru_cache(maxsize=1024)
def offered_ms(text: str) -> tuple[float, float] | None:
    """Light that a page offers, and how finely [ms]: `5.0S` before a light, `OFF 3.2` after a stop."""
    match = _SECONDS.fullmatch(text) if text.endswith("S") or text.startswith("OFF ") else None
    return (float(match[1]) * 1000, _step_ms(match[1])) if match else None


@lru_cache(maxsize=1024)
def had_ms(text: str) -> tuple[float, float] | None:
    """Least and most of a page that tells what was had, `1.2-5.6`, or `1.2` where it is known [ms]."""
    match = _EXACT.fullmatch(text)
    if match is None:
        return bounds_ms(text)
    return float(match[1]) * 1000, float(match[1]) * 1000 + _step_ms(match[1])


@lru_cache(maxsize=1024)
def bounds_ms(text: str) -> tuple[float, float] | None:
    """Least and most light of a page such as `0.2-0.7`, which rounds outwards [ms]."""
    match = _BOUNDS.fullmatch(text)
    return (float(match[1]) * 1000, float(match[2]) * 1000) if match else None


def number(text: str, before: str) -> int | None:
    """The number of a page such as `NR 41` or `STEP5`."""
    rest = text.removeprefix(before).strip()
    return int(rest) if text.startswith(before) and rest.isdecimal() else None


def _step_ms(figures: str) -> float:
    return 1000 / 10 ** len(figures.partition(".")[2])
