"""The CSV folder of an export, read back: what a cell means is said by its column's type in that version.

CSV knows no NULL: an empty cell is NULL where the column may be that, else the empty text.
"""

import csv
import sqlite3
from contextlib import closing
from pathlib import Path
from typing import Any

from footlight.errors import act, field
from footlight.notebook.errors import NotebookError
from footlight.notebook.exchange import ABOUT, FORMAT, FORMULA, tables
from footlight.notebook.migrate import migrate, newest
from footlight.notebook.restore import NOT_EXPORTED, Exported, Rows

_LONGEST_CELL = 100_000_000


def read_csv(folder: Path) -> Exported:
    """An exported folder. Raises NotebookError, one line, for anything else."""
    try:
        version, quoted = _about(folder)
        with closing(sqlite3.connect(":memory:", isolation_level=None)) as pattern:
            pattern.row_factory = sqlite3.Row
            migrate(pattern, version)
            names = {path.stem for path in folder.glob("*.csv")} - {ABOUT}
            known = [name for name in tables(pattern) if name in names]
            found = {name: _rows(folder, name, pattern, quoted) for name in known}
            # Named as they are: the restore says of them that they are not known.
            return Exported(folder, version, found | {name: [] for name in sorted(names - set(known))})
    except (OSError, UnicodeDecodeError, csv.Error) as error:
        raise NotebookError(f"{folder}: {NOT_EXPORTED}") from error


def _about(folder: Path) -> tuple[int, bool]:
    """The version, and whether texts that look like formulas carry a quote."""
    rows = list(_read(folder / f"{ABOUT}.csv"))
    if len(rows) != 1 or rows[0].get("format") != FORMAT:
        raise NotebookError(f"{folder}: no exported notebook; {act('export')} with {field('csv')} makes one")
    written = rows[0].get("version") or ""
    if not written.isdigit() or not 1 <= int(written) <= newest():
        raise NotebookError(
            f"{folder}: exported from a notebook of version {written}, here it is {newest()}; "
            "update footlight on this computer"
        )
    return int(written), rows[0].get("quoted") == "yes"


def _rows(folder: Path, name: str, pattern: sqlite3.Connection, quoted: bool) -> Rows:
    columns = {row["name"]: row for row in pattern.execute(f"PRAGMA table_info({name})")}
    return [
        {
            key: _value(_bare(cell, quoted), columns[key], folder / f"{name}.csv") if key in columns else cell
            for key, cell in row.items()
        }
        for row in _read(folder / f"{name}.csv")
    ]


def _bare(cell: str | None, quoted: bool) -> str | None:
    is_quoted = quoted and cell is not None and cell.startswith("'") and cell[1:].startswith(FORMULA)
    return cell[1:] if cell and is_quoted else cell


def _value(cell: str | None, column: sqlite3.Row, path: Path) -> Any:
    needed, kind = column["notnull"] or column["pk"], column["type"]
    if not cell:
        return "" if needed and kind == "TEXT" else None
    try:
        if kind == "BLOB":
            return _beside(cell, path)
        return {"INTEGER": int, "REAL": float}.get(kind, str)(cell)
    except ValueError as error:
        raise NotebookError(f"{path}: {column['name']}: '{cell[:40]}' is no number") from error


def _beside(cell: str, path: Path) -> bytes:
    file = path.parent / cell
    if not file.resolve().is_relative_to(path.parent.resolve()):
        raise NotebookError(f"{path}: '{cell[:40]}' lies outside the exported folder")
    return file.read_bytes()


def _read(path: Path) -> list[dict[str, str | None]]:
    # A reading's result may be longer than the 128 kB that are taken by default.
    csv.field_size_limit(_LONGEST_CELL)
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))
