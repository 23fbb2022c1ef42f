"""Dots of the display -> the text they show, by the firmware's own letters."""

import runpy
from collections.abc import Sequence
from functools import cache

from footlight.firmware_files import firmware_folders

_UNKNOWN = "?"
# One blank column parts two letters; a space between them makes four, of small letters and big ones alike.
_SPACE_COLUMNS = 3
_NEAR_A_FIGURE = "0123456789.:"


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
    # Nought and the letter O are drawn alike; beside a figure it is a nought.
    chars = list(text)
    for index, char in enumerate(chars):
        if char in "0O":
            beside = "".join(chars[max(0, index - 1) : index] + chars[index + 1 : index + 2])
            chars[index] = "0" if any(near in _NEAR_A_FIGURE for near in beside) else "O"
    return "".join(chars)
