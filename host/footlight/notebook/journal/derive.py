"""From records to rows: runs, steps, lights, sheets. Every row here can be made anew from the journal.

Sheets and runs keep their ids when they are read again, so that what is written about them stays with them.
"""

import sqlite3
from dataclasses import astuple
from typing import Any

from footlight.notebook.dates import when
from footlight.notebook.journal.reading import LightDone, Reading, StepDone, read_run
from footlight_core import records


def note_record(connection: sqlite3.Connection, epoch: int, boot: int, record: dict[str, Any]) -> None:
    """Rows that one record alone makes."""
    if record["k"] == "date":
        connection.execute(
            "INSERT OR REPLACE INTO anchors VALUES (?, ?, ?, ?, ?)",
            (epoch, record["n"], boot, record["t"], record["unix_s"]),
        )
    elif record["k"] == "fault":
        connection.execute(
            "INSERT OR REPLACE INTO faults VALUES (?, ?, ?, ?, ?)",
            (epoch, record["n"], record["run"], record["step"], record["code"]),
        )


def read_again(connection: sqlite3.Connection, epoch: int, run: int) -> set[int]:
    """Make the rows of one run anew from its records. Returns the numbers of its sheets."""
    # Named, for left alone SQLite takes the key and goes through the whole epoch, since that is in order too.
    rows = connection.execute(
        "SELECT line, boot FROM journal INDEXED BY journal_by_run"
        " WHERE epoch_id = ? AND run = ? AND whole = 1 ORDER BY number",
        (epoch, run),
    ).fetchall()
    known = [record for row in rows if (record := records.unseal(row["line"].encode())) is not None]
    if not known:
        return set()
    reading = read_run(known)
    run_id = _put_run(connection, epoch, run, known[0], rows[0]["boot"], reading)
    sheet_ids = {number: _sheet_id(connection, epoch, number) for number in reading.sheets() if number}
    _put_parts(connection, run_id, reading, sheet_ids)
    return set(sheet_ids)


def date_again(connection: sqlite3.Connection, epoch: int, new: int = 0) -> None:
    """Date the runs of an epoch of which the records from number `new` on tell something.

    Those are the runs that came with them and, if one of them says the date, all since the last one that did:
    a run is bounded by the nearest date on either side, so no later one tells more of it. Without this a
    journal would be gone through again with every batch of its records.
    """
    undated = connection.execute(
        "SELECT id, first_number, boot, t_ms FROM runs WHERE epoch_id = ? AND first_number >= ?"
        " AND (from_unix_s IS NULL OR from_unix_s IS NOT to_unix_s)",
        (epoch, _first_to_date(connection, epoch, new)),
    ).fetchall()
    for run in undated:
        moment = when(connection, epoch, run["first_number"], run["boot"], run["t_ms"])
        connection.execute(
            "UPDATE runs SET from_unix_s = ?, to_unix_s = ? WHERE id = ?",
            (moment.from_unix_s, moment.to_unix_s, run["id"]),
        )


def _first_to_date(connection: sqlite3.Connection, epoch: int, new: int) -> int:
    tells = connection.execute(
        "SELECT 1 FROM anchors WHERE epoch_id = ? AND number >= ? LIMIT 1", (epoch, new)
    ).fetchone()
    if not tells:
        return new
    row = connection.execute(
        "SELECT max(number) AS last FROM anchors WHERE epoch_id = ? AND number < ?", (epoch, new)
    ).fetchone()
    return row["last"] or 0


def rebuild(connection: sqlite3.Connection) -> None:
    """Read every record of the notebook again: after the way of reading has become better."""
    connection.execute("DELETE FROM anchors")
    connection.execute("DELETE FROM faults")
    for row in connection.execute("SELECT * FROM journal WHERE whole = 1").fetchall():
        record = records.unseal(row["line"].encode())
        if record is None:
            continue
        note_record(connection, row["epoch_id"], row["boot"], record)
        if row["run"] != (record.get("run") or None):
            # Of a kind that was not known yet when it was brought.
            connection.execute(
                "UPDATE journal SET run = ? WHERE epoch_id = ? AND number = ?",
                (record.get("run") or None, row["epoch_id"], row["number"]),
            )
    runs = connection.execute("SELECT DISTINCT epoch_id, run FROM journal WHERE run IS NOT NULL").fetchall()
    for row in runs:
        read_again(connection, row["epoch_id"], row["run"])
    connection.execute("UPDATE runs SET from_unix_s = NULL, to_unix_s = NULL")
    for row in connection.execute("SELECT id FROM epochs").fetchall():
        date_again(connection, row["id"])


def _put_run(
    connection: sqlite3.Connection,
    epoch: int,
    run: int,
    first: dict[str, Any],
    boot: int,
    reading: Reading,
) -> int:
    armed = reading.armed or {}
    connection.execute(
        "INSERT INTO runs (epoch_id, run, first_number, boot, t_ms, slot, title, sha, sheets, ended)"
        " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?) ON CONFLICT (epoch_id, run) DO UPDATE SET"
        " first_number = excluded.first_number, boot = excluded.boot, t_ms = excluded.t_ms,"
        " slot = excluded.slot, title = excluded.title, sha = excluded.sha, sheets = excluded.sheets,"
        " ended = excluded.ended",
        (
            epoch,
            run,
            first["n"],
            boot,
            first["t"],
            armed.get("slot"),
            armed.get("title"),
            armed.get("sha"),
            armed.get("sheets", 1),
            reading.ended,
        ),
    )
    row = connection.execute("SELECT id FROM runs WHERE epoch_id = ? AND run = ?", (epoch, run)).fetchone()
    return row["id"]


def _sheet_id(connection: sqlite3.Connection, epoch: int, number: int) -> int:
    row = connection.execute(
        "SELECT id, act_id FROM sheets WHERE epoch_id = ? AND number = ?", (epoch, number)
    ).fetchone() or _written_first(connection, epoch, number)
    if row is None:
        put = connection.execute("INSERT INTO sheets (epoch_id, number) VALUES (?, ?)", (epoch, number))
        assert put.lastrowid is not None
        return put.lastrowid
    if row["act_id"] is not None:
        # From now on the journal knows it: undoing what was written about it leaves it there.
        connection.execute("UPDATE sheets SET epoch_id = ?, act_id = NULL WHERE id = ?", (epoch, row["id"]))
    return row["id"]


def _written_first(connection: sqlite3.Connection, epoch: int, number: int) -> sqlite3.Row | None:
    """The sheet of that number that was written about before any journal knew it: of no controller yet, or of
    this one, which may have been formatted since."""
    return connection.execute(
        "SELECT sheets.id, act_id FROM sheets JOIN acts ON acts.id = sheets.act_id"
        " WHERE act_id IS NOT NULL AND number = ? AND undone_unix_s IS NULL"
        " AND (epoch_id IS NULL OR epoch_id IN (SELECT id FROM epochs WHERE controller_id ="
        " (SELECT controller_id FROM epochs WHERE id = ?))) ORDER BY sheets.id DESC LIMIT 1",
        (number, epoch),
    ).fetchone()


def _put_parts(
    connection: sqlite3.Connection, run_id: int, reading: Reading, sheet_ids: dict[int, int]
) -> None:
    for table in ("run_sheets", "steps", "lights"):
        connection.execute(f"DELETE FROM {table} WHERE run_id = ?", (run_id,))
    for sheet_id in sheet_ids.values():
        connection.execute("INSERT INTO run_sheets VALUES (?, ?)", (run_id, sheet_id))
    for done in reading.steps:
        if done.sheet in sheet_ids:
            _put_step(connection, run_id, sheet_ids[done.sheet], done)
    for light in reading.lights:
        if light.sheet in sheet_ids:
            _put_light(connection, run_id, sheet_ids[light.sheet], light)


def _put_step(connection: sqlite3.Connection, run_id: int, sheet_id: int, done: StepDone) -> None:
    connection.execute(
        "INSERT INTO steps (run_id, sheet_id, step, first_number, real_ms, how) VALUES (?, ?, ?, ?, ?, ?)",
        (run_id, sheet_id, done.step, done.first_number, done.real_ms, done.how),
    )


def _put_light(connection: sqlite3.Connection, run_id: int, sheet_id: int, light: LightDone) -> None:
    put = connection.execute(
        "INSERT INTO lights (run_id, sheet_id, step, first_number, planned_ms, gate_ms, least_ms, most_ms,"
        " left_ms, how) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
        (
            run_id,
            sheet_id,
            light.step,
            light.first_number,
            light.planned_ms,
            light.gate_ms,
            light.least_ms,
            light.most_ms,
            light.left_ms,
            light.how,
        ),
    )
    for part in light.exposures:
        connection.execute(
            "INSERT INTO exposures VALUES (?, ?, ?, ?, ?)",
            (put.lastrowid, part.number, part.gate_ms, part.light_ms, part.how),
        )
    for part in light.measures:
        connection.execute(
            "INSERT INTO doses VALUES (?, ?, ?, ?, ?, ?, ?, ?)", (put.lastrowid, *astuple(part))
        )
