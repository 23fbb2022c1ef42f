"""Strips and prints that were read: what was found, and a picture of it. Plain values; who reads them knows
what they mean."""

import hashlib
import sqlite3
from dataclasses import dataclass

from footlight import errors
from footlight.kinds import ReadingKind
from footlight.notebook.acts import act, standing
from footlight.notebook.errors import NotebookError
from footlight_core import records

MOST_PICTURE_BYTES = 300 * 1024


@dataclass(frozen=True)
class Entry:
    """A reading to be kept.

    kind: one of `kinds.READING_KINDS`. result: JSON, as the command prints it. run, step: of the lights that
    were taken. setup: their light setup. dose_s: advised [s of light]. d_max, veil_d, mottle_d: of a print
    [D].
    """

    kind: ReadingKind
    result: str
    sheet_id: int | None = None
    run: int | None = None
    step: int | None = None
    setup: str = ""
    scan: str = ""
    scan_sha256: str = ""
    dose_s: float | None = None
    d_max: float | None = None
    veil_d: float | None = None
    mottle_d: float | None = None


@dataclass(frozen=True)
class Kept(Entry):
    """A reading that stands. sheet: its number, None where none was named."""

    id: int = 0
    sheet: int | None = None
    done_unix_s: int = 0


@dataclass(frozen=True)
class Sent:
    """A sequence file and its light setups, as they were when it was sent; setups '' where not kept."""

    source: str
    setups: str


_COLUMNS = (
    "kind", "result", "sheet_id", "run", "step", "setup", "scan", "scan_sha256", "dose_s", "d_max", "veil_d",
    "mottle_d",
)  # fmt: skip
_KEPT = (
    f"SELECT {', '.join(f'readings.{name}' for name in _COLUMNS)}, readings.id, sheets.number AS sheet,"
    f" acts.done_unix_s FROM readings {standing('readings')}"
    " LEFT JOIN sheets ON sheets.id = readings.sheet_id"
)


def keep(connection: sqlite3.Connection, entry: Entry, said: str, picture: bytes, now_s: int) -> int:
    """Keep a reading and its picture (PNG; empty: none) in one act -> its number."""
    with act(connection, said, now_s) as act_id:
        values = [getattr(entry, name) for name in _COLUMNS]
        put = connection.execute(
            f"INSERT INTO readings (act_id, {', '.join(_COLUMNS)}) VALUES (?{', ?' * len(_COLUMNS)})",
            [act_id, *values],
        )
        assert put.lastrowid is not None
        if picture:
            _keep_picture(connection, act_id, put.lastrowid, entry, picture)
    return put.lastrowid


def _keep_picture(
    connection: sqlite3.Connection, act_id: int, reading_id: int, entry: Entry, picture: bytes
) -> None:
    if len(picture) > MOST_PICTURE_BYTES:
        raise NotebookError(f"picture of {entry.scan}: {len(picture)} bytes; at most {MOST_PICTURE_BYTES}")
    connection.execute(
        "INSERT INTO pictures (act_id, sheet_id, reading_id, name, media, sha256, data)"
        " VALUES (?, ?, ?, ?, 'image/png', ?, ?)",
        (
            act_id,
            entry.sheet_id,
            reading_id,
            f"{entry.scan}, as read",
            hashlib.sha256(picture).hexdigest(),
            picture,
        ),
    )


def find(connection: sqlite3.Connection, number: int | None = None) -> Kept:
    """The reading of that number, or the last one. Raises NotebookError where none stands."""
    row = connection.execute(
        f"{_KEPT} WHERE ? IS NULL OR readings.id = ? ORDER BY readings.id DESC LIMIT 1", (number, number)
    ).fetchone()
    if row is None:
        which = "no reading is" if number is None else f"reading {number}: not"
        raise NotebookError(
            f"{which} in the notebook; {errors.act('read strip')} reads and keeps one, of a named sheet"
        )
    return Kept(**dict(row))


def newest(connection: sqlite3.Connection, most: int) -> list[Kept]:
    """Those that stand, the newest first."""
    rows = connection.execute(f"{_KEPT} ORDER BY readings.id DESC LIMIT ?", (most,)).fetchall()
    return [Kept(**dict(row)) for row in rows]


def of_sheet(connection: sqlite3.Connection, sheet_id: int) -> list[Kept]:
    """Those of a sheet that stand, in order."""
    rows = connection.execute(
        f"{_KEPT} WHERE readings.sheet_id = ? ORDER BY readings.id", (sheet_id,)
    ).fetchall()
    return [Kept(**dict(row)) for row in rows]


def picture_of(connection: sqlite3.Connection, reading_id: int) -> bytes:
    """Its picture, PNG. Raises NotebookError where none was kept."""
    row = connection.execute("SELECT data FROM pictures WHERE reading_id = ?", (reading_id,)).fetchone()
    if row is None:
        raise NotebookError(f"reading {reading_id}: no picture was kept with it")
    return row["data"]


def as_sent(connection: sqlite3.Connection, sha: str | None) -> Sent | None:
    """The sequence of that hash with its light setups; None where it was not sent from here."""
    row = connection.execute(
        "SELECT source, setups FROM programs WHERE substr(sha256, 1, 16) = ?",
        ((sha or "")[: records.SHA_CHARS],),
    ).fetchone()
    return None if row is None else Sent(row["source"], row["setups"])
