"""Everything in the notebook as JSON or CSV for other programs, and from JSON into a new notebook."""

import csv
import json
import sqlite3
from pathlib import Path
from typing import Any

from footlight.notebook.book import transaction
from footlight.notebook.errors import NotebookError
from footlight.notebook.migrate import version_of

FORMAT = "footlight notebook"


def tables(connection: sqlite3.Connection) -> list[str]:
    """The notebook's own tables: those that SQLite keeps for the search are made anew by an import."""
    rows = connection.execute(
        "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%'"
        " AND name NOT LIKE 'words%' ORDER BY rowid"
    ).fetchall()
    return [row["name"] for row in rows]


def as_dict(connection: sqlite3.Connection) -> dict[str, Any]:
    """Every row of every table, by the names of the columns."""
    return {
        "format": FORMAT,
        "version": version_of(connection),
        "tables": {name: [dict(row) for row in _rows(connection, name)] for name in tables(connection)},
    }


def write_csv(connection: sqlite3.Connection, folder: Path) -> list[Path]:
    """One file a table, in a folder that must be new. Raises NotebookError."""
    if folder.exists():
        raise NotebookError(f"{folder}: there is such a folder or file already; name another")
    folder.mkdir(parents=True)
    written = []
    for name in tables(connection):
        cursor = _rows(connection, name)
        path = folder / f"{name}.csv"
        with path.open("w", encoding="utf-8", newline="") as file:
            rows = csv.writer(file)
            rows.writerow([column[0] for column in cursor.description])
            rows.writerows(tuple(row) for row in cursor)
        written.append(path)
    return written


def read_json(path: Path, newest: int) -> dict[str, list[dict[str, Any]]]:
    """The tables of an exported file. Raises NotebookError, one line, for anything else."""
    try:
        found = json.loads(path.read_text("utf-8"))
    except (OSError, ValueError) as error:
        raise NotebookError(f"{path}: cannot be read as an exported notebook ({error})") from error
    if not isinstance(found, dict) or found.get("format") != FORMAT or not _is_tables(found.get("tables")):
        raise NotebookError(f"{path}: no exported notebook; 'footlight export' makes one")
    if found.get("version") != newest:
        raise NotebookError(
            f"{path}: exported from a notebook of version {found.get('version')}, here it is {newest}; "
            "export it again"
        )
    return found["tables"]


def fill(connection: sqlite3.Connection, read: dict[str, list[dict[str, Any]]]) -> int:
    """Put exported tables into a notebook that has nothing in it -> rows. All or nothing."""
    known = tables(connection)
    if any(connection.execute(f"SELECT 1 FROM {name} LIMIT 1").fetchone() for name in known):
        raise NotebookError("an exported notebook goes only into a new one; name a new file with --notebook")
    unknown = sorted(set(read) - set(known))
    if unknown:
        raise NotebookError(f"the exported file has tables that are not known: {', '.join(unknown)}")
    try:
        with transaction(connection):
            connection.execute("PRAGMA defer_foreign_keys = ON")
            for name in known:
                for row in read.get(name, []):
                    _insert(connection, name, row)
    except (sqlite3.IntegrityError, sqlite3.ProgrammingError) as error:
        raise NotebookError(f"the exported file has rows that do not fit together: {error}") from error
    return sum(map(len, read.values()))


def _is_tables(found: object) -> bool:
    return isinstance(found, dict) and all(isinstance(rows, list) for rows in found.values())


def _insert(connection: sqlite3.Connection, name: str, row: dict[str, Any]) -> None:
    columns = [column["name"] for column in connection.execute(f"PRAGMA table_info({name})")]
    if not isinstance(row, dict) or sorted(row) != sorted(columns):
        raise NotebookError(f"the exported file's table '{name}' has a row with other columns")
    marks = ", ".join("?" for _ in columns)
    connection.execute(f"INSERT INTO {name} VALUES ({marks})", [row[column] for column in columns])


def _rows(connection: sqlite3.Connection, name: str) -> sqlite3.Cursor:
    return connection.execute(f"SELECT * FROM {name}")
