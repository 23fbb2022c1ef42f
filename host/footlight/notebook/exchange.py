"""Everything in the notebook as JSON or CSV, for other programs and for `restoring`."""

import base64
import csv
import json
import mimetypes
import sqlite3
from pathlib import Path
from typing import Any

from footlight.notebook.errors import NotebookError
from footlight.notebook.migrate import version_of

FORMAT = "footlight notebook"
ABOUT = "about"  # of the CSV files the one that says what the others are
# Where a value is bytes: {"base64": "..."}.
BYTES_KEY = "base64"


def tables(connection: sqlite3.Connection) -> list[str]:
    """The notebook's own tables: those that SQLite keeps for the search are made anew by a restore."""
    rows = connection.execute(
        "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%'"
        " AND name NOT LIKE 'words%' AND name NOT LIKE 'remark_words%' ORDER BY rowid"
    ).fetchall()
    return [row["name"] for row in rows]


def as_dict(connection: sqlite3.Connection) -> dict[str, Any]:
    """Every row of every table, by the names of the columns."""
    return {
        "format": FORMAT,
        "version": version_of(connection),
        "tables": {
            name: [
                {key: _plain(value) for key, value in dict(row).items()} for row in _rows(connection, name)
            ]
            for name in tables(connection)
        },
    }


def write_json(connection: sqlite3.Connection, target: Path) -> int:
    """Everything in a new file -> rows. Raises NotebookError if there is such a file already."""
    if target.exists():
        raise NotebookError(f"{target}: there is such a file already; name another")
    everything = as_dict(connection)
    # Whole or not at all: what is left of an export that was cut off must not look like one.
    part = target.with_name(f"{target.name}.part")
    try:
        part.write_text(json.dumps(everything, ensure_ascii=False, indent=1) + "\n", encoding="utf-8")
        part.replace(target)
    finally:
        part.unlink(missing_ok=True)
    return sum(map(len, everything["tables"].values()))


def write_csv(connection: sqlite3.Connection, folder: Path) -> list[Path]:
    """One file a table, in a folder that must be new; pictures beside them. Raises NotebookError."""
    if folder.exists():
        raise NotebookError(f"{folder}: there is such a folder or file already; name another")
    folder.mkdir(parents=True)
    about = f"format,version\r\n{FORMAT},{version_of(connection)}\r\n"
    (folder / f"{ABOUT}.csv").write_text(about, encoding="utf-8", newline="")
    return [_write_table(connection, name, folder) for name in tables(connection)]


def _write_table(connection: sqlite3.Connection, name: str, folder: Path) -> Path:
    cursor = _rows(connection, name)
    path = folder / f"{name}.csv"
    with path.open("w", encoding="utf-8", newline="") as file:
        rows = csv.writer(file)
        rows.writerow([column[0] for column in cursor.description])
        for row in cursor:
            rows.writerow([_beside(value, dict(row), folder / name) for value in tuple(row)])
    return path


def _beside(value: Any, row: dict[str, Any], folder: Path) -> Any:
    """Bytes go into a file beside the table, whose name stands in the cell."""
    if not isinstance(value, bytes):
        return value
    folder.mkdir(exist_ok=True)
    path = folder / f"{row['id']}{mimetypes.guess_extension(row.get('media', '')) or '.bin'}"
    path.write_bytes(value)
    return path.relative_to(folder.parent).as_posix()


def _plain(value: Any) -> Any:
    return {BYTES_KEY: base64.b64encode(value).decode("ascii")} if isinstance(value, bytes) else value


def _rows(connection: sqlite3.Connection, name: str) -> sqlite3.Cursor:
    return connection.execute(f"SELECT * FROM {name}")
