"""Acts: what one command entered, kept together so that `undo` takes it back as a whole.

Nothing is deleted. Whoever reads rows that belong to acts joins `STANDING`. What was taken back is put in
force again by `reinstating`.
"""

import sqlite3
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass

from footlight import errors
from footlight.notebook.book import transaction
from footlight.notebook.errors import NotebookError

# After a table (or alias) that has an `act_id`: only the rows that count.
STANDING = "JOIN acts ON acts.id = {table}.act_id AND acts.undone_unix_s IS NULL"


@dataclass(frozen=True)
class Act:
    """What was done, in a line, and when."""

    id: int
    said: str
    done_unix_s: int


@dataclass(frozen=True)
class Turn:
    """kind: 'taken back' or 'reinstated'."""

    kind: str
    at_unix_s: int


@dataclass(frozen=True)
class Dated(Act):
    """An act, and when it was taken back; None: it stands. turns: every one, in order."""

    undone_unix_s: int | None
    turns: tuple[Turn, ...] = ()


Also = Callable[[Act], None]


def nothing_else(turned: Act) -> None:
    """For an act that did nothing outside the notebook."""


def standing(table: str) -> str:
    """The join that leaves only what was not taken back; `table` has an `act_id`."""
    return STANDING.format(table=table)


@contextmanager
def act(connection: sqlite3.Connection, said: str, now_s: int) -> Iterator[int]:
    """Everything written within it belongs together: all or nothing, and undone together. Gives its id."""
    with transaction(connection):
        cursor = connection.execute("INSERT INTO acts (said, done_unix_s) VALUES (?, ?)", (said, now_s))
        assert cursor.lastrowid is not None
        yield cursor.lastrowid


def last(connection: sqlite3.Connection) -> Act:
    """The last act that stands. Raises NotebookError when none does."""
    row = connection.execute(
        "SELECT id, said, done_unix_s FROM acts WHERE undone_unix_s IS NULL ORDER BY id DESC LIMIT 1"
    ).fetchone()
    if row is None:
        raise NotebookError("nothing to take back: nothing that was written stands")
    return Act(*row)


def undo(
    connection: sqlite3.Connection,
    now_s: int,
    also: Also = nothing_else,
    number: int | None = None,
) -> Act:
    """Take back the last act that stands, or the one of that number. Raises NotebookError when none does, or
    when what was entered later needs it.

    also: what the act did outside the notebook is taken back by it, last of all before the commit. It must
    stand being called twice: the power may go just before the act is marked.
    """
    with transaction(connection):
        taken = last(connection) if number is None else _named(connection, number)
        turn(connection, taken, Turn("taken back", now_s))
        also(taken)
    return taken


def turn(connection: sqlite3.Connection, turned: Act, to: Turn) -> None:
    """Within a transaction: an act no longer stands, or stands again."""
    undone_s = to.at_unix_s if to.kind == "taken back" else None
    connection.execute("UPDATE acts SET undone_unix_s = ? WHERE id = ?", (undone_s, turned.id))
    connection.execute(
        "INSERT INTO turns (act, kind, at_unix_s) VALUES (?, ?, ?)", (turned.id, to.kind, to.at_unix_s)
    )


def recent(connection: sqlite3.Connection, most: int) -> list[Dated]:
    """Acts, the newest first, also those that were taken back."""
    rows = connection.execute(
        "SELECT id, said, done_unix_s, undone_unix_s FROM acts ORDER BY id DESC LIMIT ?", (most,)
    ).fetchall()
    return [Dated(*row, turns=_turns(connection, row["id"])) for row in rows]


def _turns(connection: sqlite3.Connection, number: int) -> tuple[Turn, ...]:
    rows = connection.execute("SELECT kind, at_unix_s FROM turns WHERE act = ? ORDER BY id", (number,))
    return tuple(Turn(*row) for row in rows)


def numbered(connection: sqlite3.Connection, number: int) -> Dated:
    """The act of that number. Raises NotebookError."""
    row = connection.execute(
        "SELECT id, said, done_unix_s, undone_unix_s FROM acts WHERE id = ?", (number,)
    ).fetchone()
    if row is None:
        raise NotebookError(f"act {number}: there is none; {errors.act('history')} lists what there is")
    return Dated(*row)


def _named(connection: sqlite3.Connection, number: int) -> Act:
    """The act of that number, if it can be taken back by itself. Raises NotebookError."""
    named = numbered(connection, number)
    if named.undone_unix_s is not None:
        raise NotebookError(f"act {number}: was taken back already")
    later = _built_on(connection, number)
    if later is not None:
        raise NotebookError(
            f"act {number}: act {later.id} ({later.said}) needs it; take that one back first: "
            f"{errors.act(f'undo {later.id}')}"
        )
    return named


def _built_on(connection: sqlite3.Connection, number: int) -> Act | None:
    """The last act that stands and has a row which points at a row of this one."""
    later: list[Act] = []
    for table, column, of in links(connection):
        row = connection.execute(
            f"SELECT acts.id, acts.said, acts.done_unix_s FROM {of} AS mine"
            f" JOIN {table} AS theirs ON theirs.{column} = mine.id {standing('theirs')}"
            " WHERE mine.act_id = ? AND acts.id != ? ORDER BY acts.id DESC LIMIT 1",
            (number, number),
        ).fetchone()
        later += [Act(*row)] if row else []
    return max(later, key=lambda act: act.id, default=None)


def links(connection: sqlite3.Connection) -> list[tuple[str, str, str]]:
    """(table, its column, the table that it points at), both with rows that belong to acts."""
    owned = set(_with_acts(connection))
    return [
        (table, key["from"], key["table"])
        for table in sorted(owned)
        for key in connection.execute(f"PRAGMA foreign_key_list({table})").fetchall()
        if key["table"] in owned
    ]


def _with_acts(connection: sqlite3.Connection) -> list[str]:
    """Tables whose rows belong to acts."""
    rows = connection.execute(
        "SELECT tables.name FROM sqlite_master AS tables JOIN pragma_table_info(tables.name) AS columns"
        " WHERE tables.type = 'table' AND columns.name = 'act_id' AND tables.sql NOT LIKE 'CREATE VIRTUAL%'"
        " AND tables.name NOT LIKE 'words%'"
    ).fetchall()
    return [row["name"] for row in rows]
