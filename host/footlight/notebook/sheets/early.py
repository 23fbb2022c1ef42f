"""Sheets that are written about before the controller's journal comes home.

The number is pencilled on the sheet at the pre-flash; the camera comes next, the journal may come home days
later. Such a sheet is made by the act that writes about it, without an epoch; the journal that brings its
number takes it over (`derive`). Where several controllers are known, which one's it is must be said, and the
sheet is made in that one's present memory.
"""

import sqlite3

from footlight.errors import field
from footlight.notebook.errors import NotebookError
from footlight.notebook.sheets import by_number


def look(
    connection: sqlite3.Connection, number: int, controller: str | None, *, new: bool = False
) -> sqlite3.Row | None:
    """The sheet that `by_number.find` gives; None if none is, or another is meant (`new`).

    Raises NotebookError when several controllers have one.
    """
    if new or not by_number.numbered(connection, number, controller):
        return None
    return by_number.find(connection, number, controller)


def begin(connection: sqlite3.Connection, number: int, controller: str | None, act_id: int) -> int:
    """Within an act: the row of a sheet that no journal knows yet. Raises NotebookError."""
    epoch = _epoch(connection, controller)
    if epoch is None:
        put = connection.execute("INSERT INTO sheets (number, act_id) VALUES (?, ?)", (number, act_id))
        assert put.lastrowid is not None
        return put.lastrowid
    known = connection.execute(
        "SELECT id, act_id FROM sheets WHERE epoch_id = ? AND number = ?", (epoch, number)
    ).fetchone()
    if known and known["act_id"] is None:
        raise NotebookError(
            f"sheet {number}: controller {controller} has one already; leave out {field('new')}"
        )
    if known:
        # It was begun before and taken back.
        connection.execute("UPDATE sheets SET act_id = ? WHERE id = ?", (act_id, known["id"]))
        return known["id"]
    put = connection.execute(
        "INSERT INTO sheets (epoch_id, number, act_id) VALUES (?, ?, ?)", (epoch, number, act_id)
    )
    assert put.lastrowid is not None
    return put.lastrowid


def _epoch(connection: sqlite3.Connection, controller: str | None) -> int | None:
    by_number.refuse_unknown(connection, controller)
    if controller is None:
        known = [row["id"] for row in connection.execute("SELECT id FROM controllers ORDER BY id").fetchall()]
        if len(known) > 1:
            raise NotebookError(
                f"several controllers are known ({', '.join(known)}); name one: {field('controller')}"
            )
        return None
    row = connection.execute(
        "SELECT max(id) AS latest FROM epochs WHERE controller_id = ?", (controller,)
    ).fetchone()
    return row["latest"]
