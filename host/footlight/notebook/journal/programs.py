"""Sequences as they were sent, kept by their hash so that planned can be told from given for ever."""

import json
import sqlite3
import tomllib
from dataclasses import dataclass
from typing import Any

from footlight.notebook.book import transaction
from footlight_core import records


@dataclass(frozen=True)
class Sequence:
    """A compiled sequence and where it came from. `arithmetic`: how its times came about, a line each.
    `setups`: the light-setups file as it was, '' if none was used."""

    sha256: str
    title: str
    name: str
    program: str
    source: str
    arithmetic: str
    setups: str = ""


def store(connection: sqlite3.Connection, sequence: Sequence, now_s: int) -> None:
    """Keep a sequence; twice changes nothing, but for files that an earlier version did not keep."""
    with transaction(connection):
        _store(connection, sequence, now_s)


def note_sent(
    connection: sqlite3.Connection, sequence: Sequence, controller: str, slot: int, now_s: int
) -> None:
    """Keep a sequence and that it was sent to a slot of a controller."""
    with transaction(connection):
        _store(connection, sequence, now_s)
        connection.execute("INSERT OR IGNORE INTO controllers VALUES (?, ?)", (controller, now_s))
        connection.execute(
            "INSERT INTO sends (sha256, controller_id, slot, sent_unix_s) VALUES (?, ?, ?, ?)",
            (sequence.sha256, controller, slot, now_s),
        )


def planned_steps(connection: sqlite3.Connection, sha: str | None) -> list[dict[str, Any]]:
    """The steps of the program whose hash begins like that; none when it was never stored here."""
    row = connection.execute(
        "SELECT program FROM programs WHERE substr(sha256, 1, 16) = ?", ((sha or "")[: records.SHA_CHARS],)
    ).fetchone()
    return json.loads(row["program"])["steps"] if row else []


def source(connection: sqlite3.Connection, sha: str | None) -> str:
    """The sequence file of the program whose hash begins like that; '' when it was never stored here."""
    row = connection.execute(
        "SELECT source FROM programs WHERE substr(sha256, 1, 16) = ?", ((sha or "")[: records.SHA_CHARS],)
    ).fetchone()
    return row["source"] if row else ""


def files(connection: sqlite3.Connection, sha: str | None) -> tuple[str, str] | None:
    """The sequence file and the light setups of such a program; None when they were not kept."""
    row = connection.execute(
        "SELECT source, setups FROM programs WHERE substr(sha256, 1, 16) = ?",
        ((sha or "")[: records.SHA_CHARS],),
    ).fetchone()
    return (row["source"], row["setups"]) if row and row["source"] else None


def job_of(connection: sqlite3.Connection, sha: str | None) -> str:
    """What the program whose hash begins like that is for; '' when it was never stored here."""
    row = connection.execute(
        "SELECT name, source FROM programs WHERE substr(sha256, 1, 16) = ?",
        ((sha or "")[: records.SHA_CHARS],),
    ).fetchone()
    return job(row["name"], row["source"]) if row else ""


def job(name: str, source: str) -> str:
    """`reversal print for 8x10`: its name, and the size that its file is written for."""
    try:
        size = str(tomllib.loads(source).get("sheet", ""))
    except tomllib.TOMLDecodeError:
        size = ""
    return f"{name} for {size}" if size else name


def sha_of_run(connection: sqlite3.Connection, controller: str, run: int) -> str | None:
    """How the hash of the program of a controller's run begins, in its present memory; None if not known."""
    row = connection.execute(
        "SELECT runs.sha FROM runs JOIN epochs ON epochs.id = runs.epoch_id"
        " WHERE epochs.controller_id = ? AND runs.run = ? ORDER BY epochs.id DESC LIMIT 1",
        (controller, run),
    ).fetchone()
    return row["sha"] if row else None


def last_formula(connection: sqlite3.Connection, tray: str) -> str:
    """The formula of the tray of that name in the last sequence that was sent and has such a tray; ''."""
    import tomllib  # only here: lists of sheets do not wait for it

    rows = connection.execute("SELECT source FROM programs ORDER BY stored_unix_s DESC, rowid DESC LIMIT 50")
    for row in rows:
        try:
            trays = tomllib.loads(row["source"]).get("trays", {})
        except tomllib.TOMLDecodeError:
            continue
        mine = next((table for name, table in trays.items() if name.casefold() == tray.casefold()), None)
        if mine is not None:
            return str(mine.get("formula") or mine.get("bath") or "")
    return ""


def _store(connection: sqlite3.Connection, sequence: Sequence, now_s: int) -> None:
    connection.execute(
        "INSERT OR IGNORE INTO programs VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
        (
            sequence.sha256,
            sequence.title,
            sequence.name,
            sequence.program,
            sequence.source,
            sequence.arithmetic,
            now_s,
            sequence.setups,
        ),
    )
    # An earlier version kept no light setups: what is sent now tells how the same program comes about.
    if not sequence.setups:
        return
    connection.execute(
        "UPDATE programs SET source = ?, arithmetic = ?, setups = ? WHERE sha256 = ? AND setups = ''",
        (sequence.source, sequence.arithmetic, sequence.setups, sequence.sha256),
    )
