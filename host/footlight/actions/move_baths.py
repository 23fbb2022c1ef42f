"""Baths are bottled, poured back into their trays, or emptied: one finding for each."""

import sqlite3
from collections.abc import Sequence
from pathlib import Path
from typing import Literal

from footlight.errors import InputError, act, field
from footlight.notebook.book import notebook
from footlight.notebook.errors import NotebookError
from footlight.notebook.stock import baths
from footlight.notebook.stock.baths import Bath, Finding

Move = Literal["bottled", "poured", "emptied"]


def move_baths(
    book: Path, move: Move, names: Sequence[str], every: bool, at_s: int, now_s: int
) -> list[Bath]:
    """Write the move of the baths named, or of all it can be done with; all or none -> the baths.

    at_s, now_s [s since 1970]. Raises InputError for both or neither, and for a moment that cannot be;
    NotebookError for a bath that is not in use.
    """
    if bool(names) == every:
        raise InputError(f"{field('names')}: name the baths, or write {field('all')}, not both")
    with notebook(book, writing=True, making=False) as connection:
        moved = [baths.current(connection, name) for name in names] if names else _all(connection, move)
        baths.note(connection, [(bath, Finding(move, 1.0, at_unix_s=at_s)) for bath in moved], now_s)
    return moved


def _all(connection: sqlite3.Connection, move: Move) -> list[Bath]:
    # What is in a bottle already cannot be bottled, and what stands in its tray not poured there.
    movable = [
        bath
        for bath in baths.in_use(connection)
        if move == "emptied" or bath.is_bottled == (move == "poured")
    ]
    if not movable:
        raise NotebookError(
            f"{field('all')}: no bath could be {move}; {act('bath list')} shows what is in use"
        )
    return movable
