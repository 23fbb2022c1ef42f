"""An evening is given a name."""

import sqlite3
from pathlib import Path

from footlight.errors import InputError, field
from footlight.notebook.book import notebook
from footlight.notebook.sheets import sessions
from footlight.notebook.sheets.sessions import Evening, Named


def name_session(
    book: Path, name: str, note: str, from_s: int | None, to_s: int | None, now_s: int
) -> tuple[Named, Evening]:
    """Name the evening that begins at `from_s`, or the runs until `to_s` [s since 1970]; without either the
    last evening -> what was written, and the evening.

    Raises InputError where an end lies before the beginning, or when the last evening was is not known.
    """
    with notebook(book, writing=True, making=False) as connection:
        named = Named(name, _last_s(connection) if from_s is None else from_s, to_s, note)
        sessions.name(connection, named, now_s)
        return named, sessions.find(connection, name)


def _last_s(connection: sqlite3.Connection) -> int:
    evening = sessions.find(connection, None)
    if not evening.dated or evening.from_unix_s is None:
        raise InputError(
            "session: when the last evening was is not known, so no name goes with it;"
            f" {field('from')} names another"
        )
    return evening.from_unix_s
