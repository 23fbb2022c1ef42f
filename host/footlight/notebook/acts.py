"""Acts: what one command entered, kept together so that `undo` takes it back as a whole.

Nothing is deleted. Whoever reads rows that belong to acts joins `STANDING`.
"""

import sqlite3
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass

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


def undo(connection: sqlite3.Connection, now_s: int, also: Callable[[Act], None] = lambda taken: None) -> Act:
    """Take back the last act that stands. Raises NotebookError when none does.

    also: what the act did outside the notebook is taken back by it, last of all before the commit. It must
    stand being called twice: the power may go just before the act is marked.
    """
    with transaction(connection):
        taken = last(connection)
        connection.execute("UPDATE acts SET undone_unix_s = ? WHERE id = ?", (now_s, taken.id))
        also(taken)
    return taken


def recent(connection: sqlite3.Connection, most: int) -> list[Act]:
    """The acts that stand, the newest first."""
    rows = connection.execute(
        "SELECT id, said, done_unix_s FROM acts WHERE undone_unix_s IS NULL ORDER BY id DESC LIMIT ?", (most,)
    ).fetchall()
    return [Act(*row) for row in rows]
