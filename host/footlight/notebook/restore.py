"""A notebook out of an exported file, also of an older version.

It is made under another name, checked, and only then given its own: whatever goes wrong, there is no half
notebook. Nothing is restored into a notebook that holds something: two notebooks' sheets are told apart by
more than their numbers, and what was taken back in one may stand in the other.
"""

import base64
import binascii
import json
import sqlite3
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from footlight.errors import act
from footlight.notebook import leftovers
from footlight.notebook.book import notebook, refuse_broken, told, transaction
from footlight.notebook.errors import NotebookError
from footlight.notebook.exchange import BYTES_KEY, FORMAT, tables
from footlight.notebook.migrate import migrate, newest
from footlight.notebook.place import refuse_network

Rows = list[dict[str, Any]]
NOT_EXPORTED = f"no exported notebook, or a part of one; {act('export')} makes one"


@dataclass(frozen=True)
class Exported:
    """What an exported file holds. `version`: of the notebook that it was made of."""

    path: Path
    version: int
    tables: dict[str, Rows]

    @property
    def count(self) -> int:
        """How many rows."""
        return sum(map(len, self.tables.values()))


def read_json(path: Path) -> Exported:
    """An exported file. Raises NotebookError, one line, for anything else."""
    try:
        found = json.loads(path.read_text("utf-8"))
    except OSError as error:
        raise NotebookError(f"{path}: cannot be read ({(error.strerror or 'failed').lower()})") from error
    except (ValueError, RecursionError) as error:
        raise NotebookError(f"{path}: {NOT_EXPORTED}") from error
    if not isinstance(found, dict) or found.get("format") != FORMAT or not _is_tables(found.get("tables")):
        raise NotebookError(f"{path}: {NOT_EXPORTED}")
    version = found.get("version")
    if not isinstance(version, int) or not 1 <= version <= newest():
        raise NotebookError(
            f"{path}: exported from a notebook of version {version}, here it is {newest()}; "
            "update footlight on this computer"
        )
    return Exported(path, version, found["tables"])


def restore(exported: Exported, book: Path) -> list[str]:
    """Make the notebook `book` of it, all or nothing -> what was spoilt when it was exported.

    Raises NotebookError, also if `book` holds anything.
    """
    refuse_network(book)
    if book.exists():
        _refuse_full(book)
    book.parent.mkdir(parents=True, exist_ok=True)
    fresh = book.with_name(f"{book.name}.restoring")
    fresh.unlink(missing_ok=True)
    try:
        with told(book):
            _make(exported, fresh)
            spoilt = refuse_broken(fresh, book)
            leftovers.clear_for(book)
            fresh.replace(book)
            return spoilt
    finally:
        fresh.unlink(missing_ok=True)


def _refuse_full(book: Path) -> None:
    with notebook(book, writing=False) as connection:
        if any(connection.execute(f"SELECT 1 FROM {name} LIMIT 1").fetchone() for name in tables(connection)):
            raise NotebookError(
                f"{book}: holds something already, and an exported notebook goes only into a new one; "
                "name a new file with --notebook"
            )


def _make(exported: Exported, fresh: Path) -> None:
    with closing(sqlite3.connect(fresh, isolation_level=None)) as connection:
        connection.row_factory = sqlite3.Row
        connection.execute("PRAGMA foreign_keys = ON")
        migrate(connection, exported.version)
        try:
            _fill(connection, exported)
            migrate(connection)
            index_words(connection)
        except (sqlite3.IntegrityError, sqlite3.ProgrammingError) as error:
            raise NotebookError(f"{exported.path}: has rows that do not fit together: {error}") from error


def index_words(connection: sqlite3.Connection) -> None:
    """The search's index made anew, in the order in which things were written."""
    with transaction(connection):
        connection.execute("DELETE FROM words")
        connection.execute(
            "INSERT INTO words SELECT text, kind, about, sheet_id, act_id FROM everything_in_words"
            " ORDER BY act_id"
        )


def _fill(connection: sqlite3.Connection, exported: Exported) -> None:
    known = tables(connection)
    unknown = sorted(set(exported.tables) - set(known))
    if unknown:
        raise NotebookError(f"{exported.path}: has tables that are not known: {', '.join(unknown)}")
    with transaction(connection):
        connection.execute("PRAGMA defer_foreign_keys = ON")
        for name in known:
            _insert_all(connection, name, exported)


def _insert_all(connection: sqlite3.Connection, name: str, exported: Exported) -> None:
    columns = [column["name"] for column in connection.execute(f"PRAGMA table_info({name})")]
    marks = ", ".join("?" for _ in columns)
    for row in exported.tables.get(name, []):
        if not isinstance(row, dict) or set(row) != set(columns):
            raise NotebookError(f"{exported.path}: the table '{name}' has a row with other columns")
        values = [_value(row[column], exported.path) for column in columns]
        connection.execute(f"INSERT INTO {name} ({', '.join(columns)}) VALUES ({marks})", values)


def _value(value: Any, path: Path) -> Any:
    # CSV has bytes already; JSON has them behind a key.
    if not isinstance(value, dict):
        return value
    try:
        return base64.b64decode(value[BYTES_KEY], validate=True)
    except (KeyError, TypeError, binascii.Error) as error:
        raise NotebookError(f"{path}: has a value that is neither text, number nor base64") from error


def _is_tables(found: object) -> bool:
    return isinstance(found, dict) and all(isinstance(rows, list) for rows in found.values())
