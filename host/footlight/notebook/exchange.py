"""Everything in the notebook as JSON or CSV, for other programs and for `restoring`."""

import base64
import csv
import json
import mimetypes
import sqlite3
from pathlib import Path
from typing import Any

from footlight import whole_file
from footlight.notebook.migrate import version_of

FORMAT = "footlight notebook"
ABOUT = "about"  # of the CSV files the one that says what the others are
# A cell that begins with one of these is a formula to a spreadsheet (OWASP, 'CSV Injection'); the quote is
# among them so that a text which begins with one comes back as it was.
FORMULA = ("=", "+", "-", "@", "\t", "\r", "'")
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
    """Everything in a new file -> rows. Raises InputError if there is such a file already, or none can be
    written."""
    whole_file.refuse_existing(target)
    everything = as_dict(connection)
    whole_file.write(target, json.dumps(everything, ensure_ascii=False, indent=1) + "\n")
    return sum(map(len, everything["tables"].values()))


def write_csv(connection: sqlite3.Connection, folder: Path) -> list[str]:
    """One file a table, in a folder that must be new; pictures beside them -> the tables' names.

    Raises InputError if there is such a folder already, or none can be written.
    """
    names = tables(connection)
    with whole_file.whole(folder) as part:
        part.mkdir(parents=True)
        about = f"format,version,quoted\r\n{FORMAT},{version_of(connection)},yes\r\n"
        (part / f"{ABOUT}.csv").write_text(about, encoding="utf-8", newline="")
        for name in names:
            _write_table(connection, name, part)
    return names


def _write_table(connection: sqlite3.Connection, name: str, folder: Path) -> None:
    cursor = _rows(connection, name)
    path = folder / f"{name}.csv"
    with path.open("w", encoding="utf-8", newline="") as file:
        rows = csv.writer(file)
        rows.writerow([column[0] for column in cursor.description])
        for row in cursor:
            rows.writerow([_quoted(_beside(value, dict(row), folder / name)) for value in tuple(row)])


def _quoted(value: Any) -> Any:
    """A text that a spreadsheet would take for a formula, as one that it shows as it is."""
    return f"'{value}" if isinstance(value, str) and value.startswith(FORMULA) else value


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
