"""What the printer writes about sheets: verdicts, defects by name, notes. Taken back, never deleted."""

import sqlite3
from dataclasses import dataclass

from footlight.notebook.book import transaction
from footlight.notebook.errors import NotebookError

# Common practice, no source: the names that printers give to what went wrong.
DEFECTS = ("mottle", "veil", "stain", "drop", "tongs", "border", "blister")
VERDICTS = ("good", "usable", "lost")


@dataclass(frozen=True)
class Remark:
    """One thing written about a sheet. `kind`: note, defect or verdict."""

    sheet: int
    kind: str
    text: str
    written_unix_s: int


_REMARK = (
    "SELECT remarks.id, sheets.number, remarks.kind, remarks.text, remarks.written_unix_s FROM remarks"
    " JOIN sheets ON sheets.id = remarks.sheet_id"
)


def write(connection: sqlite3.Connection, sheet_id: int, entries: list[tuple[str, str]], now_s: int) -> None:
    """Write (kind, text) entries about a sheet, all or none."""
    with transaction(connection):
        connection.executemany(
            "INSERT INTO remarks (sheet_id, kind, text, written_unix_s) VALUES (?, ?, ?, ?)",
            [(sheet_id, kind, text, now_s) for kind, text in entries],
        )


def of_sheet(connection: sqlite3.Connection, sheet_id: int) -> list[Remark]:
    """What stands about a sheet, in the order of writing; of verdicts only the last."""
    rows = connection.execute(
        f"{_REMARK} WHERE remarks.sheet_id = ? AND undone_unix_s IS NULL ORDER BY remarks.id", (sheet_id,)
    ).fetchall()
    verdicts = [row["id"] for row in rows if row["kind"] == "verdict"]
    return [_remark(row) for row in rows if row["kind"] != "verdict" or row["id"] == verdicts[-1]]


def undo(connection: sqlite3.Connection, now_s: int) -> Remark:
    """Take back what was written last and still stands. Raises NotebookError when nothing does."""
    with transaction(connection):
        row = connection.execute(
            f"{_REMARK} WHERE undone_unix_s IS NULL ORDER BY remarks.id DESC LIMIT 1"
        ).fetchone()
        if row is None:
            raise NotebookError("nothing to take back: nothing that was written stands")
        connection.execute("UPDATE remarks SET undone_unix_s = ? WHERE id = ?", (now_s, row["id"]))
    return _remark(row)


def search(connection: sqlite3.Connection, words: str, most: int) -> list[Remark]:
    """What stands and holds all these words or beginnings of words, the newest first."""
    wanted = " ".join(f'"{word.replace(chr(34), "")}"*' for word in words.split())
    rows = connection.execute(
        f"{_REMARK} JOIN remark_words ON remark_words.rowid = remarks.id"
        " WHERE remark_words MATCH ? AND undone_unix_s IS NULL ORDER BY remarks.id DESC LIMIT ?",
        (wanted, most),
    ).fetchall()
    return [_remark(row) for row in rows]


def _remark(row: sqlite3.Row) -> Remark:
    return Remark(row["number"], row["kind"], row["text"], row["written_unix_s"])
