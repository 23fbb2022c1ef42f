"""Plain columns that fit the terminal. No colour: they read the same when piped."""

import textwrap
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from footlight.quantities.signs import MINUS

_GAP = "  "
# A column of words is never made narrower than this: below it nothing can be read.
_NARROWEST = 12

Row = Sequence[str]


@dataclass(frozen=True)
class Grid:
    """A table before it is laid out, for whoever shows it otherwise than in lines."""

    head: Row
    rows: Sequence[Row]

    def lines(self, width: int | None = None) -> list[str]:
        """The same as lines; see `columns`."""
        return columns(self.head, self.rows, width)

    @cached_property
    def right(self) -> list[bool]:
        """Of each column: does it hold numbers, which stand to the right?"""
        return [all(_is_number(row[index]) for row in self.rows) for index in range(len(self.head))]


def columns(head: Row, rows: Sequence[Row], width: int | None = None) -> list[str]:
    """Lines of a table: numbers to the right, words to the left. Nothing at all without rows.

    width: of the terminal in characters; None for as wide as it comes. The widest columns of words give way
    first, then those of numbers; between words and never within one.
    """
    return [line for row in row_lines(head, rows, width) for line in row]


def row_lines(
    head: Row, rows: Sequence[Row], width: int | None = None, *, numbers_right: bool = True
) -> list[list[str]]:
    """The same as the lines of each row, the head's first, for a table that is told more between its rows."""
    if not rows:
        return []
    right = [numbers_right and is_right for is_right in Grid(head, rows).right]
    widths = [max(len(row[index]) for row in [head, *rows]) for index in range(len(head))]
    if width is not None:
        widths = _narrowed(head, rows, widths, right, width)
    return [_lines(row, widths, right) for row in [head, *rows]]


def fitted(line: str, width: int | None) -> list[str]:
    """A sentence in as many lines as it needs, later ones indented; a word is never broken."""
    if width is None or len(line) <= width:
        return [line]
    indent = " " * (len(line) - len(line.lstrip()))
    return textwrap.wrap(
        line.strip(),
        width,
        initial_indent=indent,
        subsequent_indent=indent + _GAP,
        break_long_words=False,
        break_on_hyphens=False,
    )


def without_empty(head: Row, rows: Sequence[Row]) -> tuple[Row, list[Row]]:
    """The table without the columns in which no row has anything."""
    kept = [index for index in range(len(head)) if any(row[index] for row in rows)]
    return [head[index] for index in kept], [[row[index] for index in kept] for row in rows]


def _narrowed(head: Row, rows: Sequence[Row], widths: list[int], right: list[bool], width: int) -> list[int]:
    """Widths that fit, as far as words allow: columns of words give way first, then those of numbers, whose
    heads and units may stand below one another."""
    longest = [_longest_word(head, rows, index) for index in range(len(widths))]
    for numbers in (False, True):
        least = {
            index: longest[index] if numbers else max(_NARROWEST, longest[index])
            for index in range(len(widths))
            if right[index] == numbers
        }
        widths = _taken_from(widths, least, width)
    return widths


def _taken_from(widths: list[int], least: dict[int, int], width: int) -> list[int]:
    """The widest of these columns gives way, again and again, until all fit or none can."""
    widths = list(widths)
    while sum(widths) + len(_GAP) * (len(widths) - 1) > width:
        room = [index for index in least if widths[index] > least[index]]
        if not room:
            break
        widths[max(room, key=lambda index: widths[index])] -= 1
    return widths


def _longest_word(head: Row, rows: Sequence[Row], index: int) -> int:
    return max((len(word) for row in [head, *rows] for word in row[index].split()), default=0)


def _lines(row: Row, widths: list[int], right: list[bool]) -> list[str]:
    parts = [
        textwrap.wrap(cell, width, break_long_words=False, break_on_hyphens=False)
        if len(cell) > width
        else [cell]
        for cell, width in zip(row, widths, strict=True)
    ]
    height = max(len(part) for part in parts)
    padded = [part + [""] * (height - len(part)) for part in parts]
    return [
        _GAP.join(
            cell.rjust(width) if to_right else cell.ljust(width)
            for cell, width, to_right in zip(cells, widths, right, strict=True)
        ).rstrip()
        for cells in zip(*padded, strict=True)
    ]


def _is_number(cell: str) -> bool:
    return not cell or cell == "–" or cell.lstrip("+" + MINUS)[:1].isdigit()
