"""What the printer writes about sheets: verdicts, defects by name, notes. Taken back, never deleted."""

import sqlite3
from collections.abc import Iterable
from dataclasses import dataclass

from footlight.errors import InputError, field
from footlight.notebook.acts import standing

# Common practice, no source: the names that printers give to what went wrong.
DEFECTS = ("mottle", "veil", "stain", "drop", "tongs", "border", "blister")
VERDICTS = ("good", "usable", "lost")


@dataclass(frozen=True)
class Remark:
    """One thing written about a sheet. `kind`: note, defect, verdict."""

    sheet: int
    kind: str
    text: str
    written_unix_s: int


@dataclass(frozen=True)
class Hit:
    """What a search found. `kind`: of a remark, or camera, paper, bath, lens, session, sequence.

    `sheet`: None where it is about none; then `about` names the thing. `written_unix_s`: None of a sequence.
    """

    sheet: int | None
    kind: str
    about: str
    text: str
    written_unix_s: int | None


_REMARK = (
    "SELECT remarks.id, sheets.number, remarks.kind, remarks.text, acts.done_unix_s FROM remarks"
    f" {standing('remarks')} JOIN sheets ON sheets.id = remarks.sheet_id"
)


def put(
    connection: sqlite3.Connection, act_id: int, sheet_id: int, entries: Iterable[tuple[str, str]]
) -> None:
    """Within an act: (kind, text) entries about a sheet."""
    connection.executemany(
        "INSERT INTO remarks (act_id, sheet_id, kind, text) VALUES (?, ?, ?, ?)",
        [(act_id, sheet_id, kind, text) for kind, text in entries],
    )


def of_sheet(connection: sqlite3.Connection, sheet_id: int) -> list[Remark]:
    """What stands about a sheet, in the order of writing; of verdicts only the last."""
    rows = connection.execute(
        f"{_REMARK} WHERE remarks.sheet_id = ? ORDER BY remarks.id", (sheet_id,)
    ).fetchall()
    verdicts = [row["id"] for row in rows if row["kind"] == "verdict"]
    return [_remark(row) for row in rows if row["kind"] != "verdict" or row["id"] == verdicts[-1]]


def search(connection: sqlite3.Connection, words: str, most: int) -> list[Hit]:
    """What stands and holds all these words or beginnings of words, the newest first. Raises InputError."""
    if not words.strip():
        raise InputError(f"{field('words')}: nothing to look for; write a word, or the beginning of one")
    wanted = " ".join(f'"{word.replace(chr(34), "")}"*' for word in words.split())
    rows = connection.execute(
        "SELECT sheets.number, words.kind, words.about, words.text, acts.done_unix_s FROM words"
        " LEFT JOIN acts ON acts.id = words.act_id LEFT JOIN sheets ON sheets.id = words.sheet_id"
        " WHERE words MATCH ? AND acts.undone_unix_s IS NULL ORDER BY words.rowid DESC",
        (wanted,),
    )
    hits: dict[tuple[object, ...], Hit] = {}
    for row in rows:
        # A camera exposure that was written again, with the time given, says the same words twice.
        hits.setdefault(tuple(row)[:4], Hit(*row))
        if len(hits) == most:
            break
    return list(hits.values())


def _remark(row: sqlite3.Row) -> Remark:
    return Remark(row["number"], row["kind"], row["text"], row["done_unix_s"])
