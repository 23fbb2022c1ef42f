"""Faults as the journal tells them: which one of a run still stands, and which belong to no run.

The controller keeps the number of its last run while it rests, so the number alone does not tell.
"""

import sqlite3
from typing import Any

from footlight_core import records


def end_number(connection: sqlite3.Connection, epoch: int, run: int) -> int | None:
    """The number of the record with which a run ended; None while it has not, or where that is damaged."""
    ended = _newest(connection, epoch, run, ("end",))
    return ended["n"] if ended else None


def standing(connection: sqlite3.Connection, epoch: int, run: int) -> int:
    """The code of the fault that nobody has answered yet at the pedal, or 0."""
    newest = _newest(connection, epoch, run, ("fault", "cleared", "end"))
    return newest["code"] if newest and newest["k"] == "fault" else 0


def outside(connection: sqlite3.Connection, epoch: int, first: int) -> list[int]:
    """The codes of those from record `first` on that came at a start, at rest, or once the run of their
    number had ended; each once, in order."""
    rows = connection.execute(
        "SELECT number, run, code FROM faults WHERE epoch_id = ? AND number >= ? ORDER BY number",
        (epoch, first),
    ).fetchall()
    codes = [row["code"] for row in rows if _is_outside(connection, epoch, row)]
    return list(dict.fromkeys(codes))


def _is_outside(connection: sqlite3.Connection, epoch: int, row: sqlite3.Row) -> bool:
    ended = end_number(connection, epoch, row["run"]) if row["run"] else 0
    return ended is not None and row["number"] > ended


def _newest(
    connection: sqlite3.Connection, epoch: int, run: int, kinds: tuple[str, ...]
) -> dict[str, Any] | None:
    rows = connection.execute(
        "SELECT line FROM journal INDEXED BY journal_by_run"
        " WHERE epoch_id = ? AND run = ? AND whole = 1 ORDER BY number DESC",
        (epoch, run),
    )
    known = (records.unseal(row["line"].encode()) for row in rows)
    return next((record for record in known if record is not None and record["k"] in kinds), None)
