"""What sheets went through since some moment: their steps as they were begun, with the moment of each."""

import sqlite3
from dataclasses import dataclass

from footlight.notebook.acts import standing
from footlight.notebook.dates import When, when
from footlight_core import records

_LONGEST_RUN_S = 24 * 3600  # a run may have begun before the moment that is asked about


@dataclass(frozen=True)
class StepSeen:
    """A step of a sheet, once begun. when: it began. real_ms: None where its end is not known [ms]."""

    run_id: int
    sha: str | None
    sheet_id: int
    sheet: int
    step: int
    when: When
    real_ms: int | None
    how: str | None


def since(connection: sqlite3.Connection, from_unix_s: int) -> list[StepSeen]:
    """Every step of runs that may have been going on then or later, in the order of each run's records."""
    rows = connection.execute(
        "SELECT runs.id AS run_id, runs.epoch_id, runs.sha, runs.boot, runs.t_ms, runs.from_unix_s,"
        " runs.to_unix_s, steps.sheet_id, sheets.number AS sheet, steps.step, steps.first_number,"
        " steps.real_ms, steps.how, journal.line, journal.boot AS step_boot"
        " FROM runs JOIN steps ON steps.run_id = runs.id JOIN sheets ON sheets.id = steps.sheet_id"
        " LEFT JOIN journal ON journal.epoch_id = runs.epoch_id AND journal.number = steps.first_number"
        " WHERE runs.to_unix_s IS NULL OR runs.to_unix_s >= ? ORDER BY runs.id, steps.first_number",
        (from_unix_s - _LONGEST_RUN_S,),
    ).fetchall()
    return [_seen(connection, row) for row in rows]


def paper_size(connection: sqlite3.Connection, sheet_id: int) -> str | None:
    """The size of the paper that a sheet was said to be of, as written; None where nobody said."""
    row = connection.execute(
        f"SELECT batches.size FROM papers_of_sheets {standing('papers_of_sheets')}"
        " JOIN batches ON batches.id = papers_of_sheets.batch_id"
        " WHERE papers_of_sheets.sheet_id = ? ORDER BY papers_of_sheets.id DESC LIMIT 1",
        (sheet_id,),
    ).fetchone()
    return row["size"] if row else None


def _seen(connection: sqlite3.Connection, row: sqlite3.Row) -> StepSeen:
    keys = ("run_id", "sha", "sheet_id", "sheet", "step", "real_ms", "how")
    return StepSeen(when=_when(connection, row), **{key: row[key] for key in keys})


def _when(connection: sqlite3.Connection, row: sqlite3.Row) -> When:
    record = records.unseal(row["line"].encode()) if row["line"] else None
    if record is None:
        return When(row["from_unix_s"], row["to_unix_s"])
    # A step that was skipped, or whose beginning is damaged, is known by the record of its end.
    begun_ms = record.get("start", record["t"])
    is_dated = row["from_unix_s"] is not None and row["from_unix_s"] == row["to_unix_s"]
    if row["step_boot"] != row["boot"] or not is_dated:
        return when(connection, row["epoch_id"], row["first_number"], row["step_boot"], begun_ms)
    known_s = row["from_unix_s"] + round((begun_ms - row["t_ms"]) / 1000)
    return When(known_s, known_s)
