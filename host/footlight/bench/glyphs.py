"""Dots of the display -> the text they show, by the firmware's own letters."""

import re
import runpy
from collections.abc import Sequence
from functools import cache

from footlight.firmware_files import firmware_folders

_UNKNOWN = "?"
# One blank column parts two letters; a space between them makes four, of small letters and big ones alike.
_SPACE_COLUMNS = 3
_FIGURES = "0-9.:"


def read_text(rows: Sequence[Sequence[bool]]) -> str:
    """Eight rows of dots -> the text, "" for a dark display."""
    text, blank = "", 0
    for shape in _shapes(rows):
        if not shape:
            blank += 1
            continue
        text += " " if text and blank >= _SPACE_COLUMNS else ""
        text += _letters().get(shape, _UNKNOWN)
        blank = 0
    return _with_zeros(text)


def _shapes(rows: Sequence[Sequence[bool]]) -> list[bytes]:
    """The columns from left to right: each letter whole, each blank column as nothing."""
    shapes, letter = [], bytearray()
    for column in [*zip(*rows, strict=True), (False,) * len(rows)]:
        bits = sum(1 << y for y, lit in enumerate(column) if lit)
        if bits:
            letter.append(bits)
            continue
        shapes += [bytes(letter)] if letter else []
        shapes.append(b"")
        letter.clear()
    return shapes


@cache
def _letters() -> dict[bytes, str]:
    font = runpy.run_path(str(firmware_folders()[0] / "controller" / "font.py"))
    # The first of two that look the same counts: the big figures come after the small letters.
    pairs = [*font["BIG"].items(), *reversed(list(font["SMALL"].items()))]
    return {bytes(columns): char for char, columns in pairs if any(columns)}


def _with_zeros(text: str) -> str:
    # Nought and the letter O are drawn alike; a row of them beside a figure is noughts.
    return re.sub(f"(?<![{_FIGURES}])0+(?![{_FIGURES}])", lambda zeros: "O" * len(zeros[0]), text)
