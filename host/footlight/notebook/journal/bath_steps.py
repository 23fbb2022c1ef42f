"""What sheets went through since some moment: their steps as they were begun, and the moment of each."""

import sqlite3
from dataclasses import dataclass

from footlight.notebook.acts import standing
from footlight.notebook.dates import When, when
from footlight_core import records

_LONGEST_RUN_S = 24 * 3600  # a run may have begun before the moment that is asked about
_KNOWN = "(SELECT substr(sha256, 1, 16) FROM programs)"
_SINCE = "(runs.to_unix_s IS NULL OR runs.to_unix_s >= ?)"


@dataclass(frozen=True)
class StepSeen:
    """A step of a sheet, once begun. real_ms: None where its end is not known [ms]. first_number: of its
    first record; the rest is of its run."""

    run_id: int
    sha: str | None
    sheet_id: int
    sheet: int
    step: int
    first_number: int
    real_ms: int | None
    how: str | None
    epoch_id: int
    boot: int
    t_ms: int
    from_unix_s: int | None
    to_unix_s: int | None


def since(connection: sqlite3.Connection, from_unix_s: int) -> list[StepSeen]:
    """Steps of runs that may have been going on then or later, of sequences that the notebook knows, in the
    order of each run's records."""
    rows = connection.execute(
        "SELECT runs.id, runs.sha, steps.sheet_id, sheets.number, steps.step, steps.first_number,"
        " steps.real_ms, steps.how, runs.epoch_id, runs.boot, runs.t_ms, runs.from_unix_s, runs.to_unix_s"
        # In this order: the few runs in question first, then their steps.
        " FROM runs CROSS JOIN steps ON steps.run_id = runs.id"
        " CROSS JOIN sheets ON sheets.id = steps.sheet_id"
        f" WHERE {_SINCE} AND runs.sha IN {_KNOWN} ORDER BY runs.id, steps.first_number",
        (from_unix_s - _LONGEST_RUN_S,),
    )
    return [StepSeen(*row) for row in rows]


def unknown_sheets(connection: sqlite3.Connection, from_unix_s: int) -> int:
    """How many sheets had a run since then of a sequence that the notebook does not know."""
    row = connection.execute(
        "SELECT count(DISTINCT run_sheets.sheet_id) FROM runs JOIN run_sheets ON run_sheets.run_id = runs.id"
        f" WHERE {_SINCE} AND (runs.sha IS NULL OR runs.sha NOT IN {_KNOWN})",
        (from_unix_s,),
    ).fetchone()
    return row[0]


def moment(connection: sqlite3.Connection, step: StepSeen) -> When:
    """When a step was begun."""
    row = connection.execute(
        "SELECT line, boot FROM journal WHERE epoch_id = ? AND number = ?",
        (step.epoch_id, step.first_number),
    ).fetchone()
    record = records.unseal(row["line"].encode()) if row else None
    if record is None:
        return When(step.from_unix_s, step.to_unix_s)
    # A step whose beginning is damaged is known by the record of its end, which says when it began.
    begun_ms = record.get("start", record["t"])
    is_dated = step.from_unix_s is not None and step.from_unix_s == step.to_unix_s
    if row["boot"] != step.boot or not is_dated:
        return when(connection, step.epoch_id, step.first_number, row["boot"], begun_ms)
    known_s = (step.from_unix_s or 0) + round((begun_ms - step.t_ms) / 1000)
    return When(known_s, known_s)


def paper_size(connection: sqlite3.Connection, sheet_id: int) -> str | None:
    """The size of the paper that a sheet was said to be of, as written; None where nobody said."""
    row = connection.execute(
        f"SELECT batches.size FROM papers_of_sheets {standing('papers_of_sheets')}"
        " JOIN batches ON batches.id = papers_of_sheets.batch_id"
        " WHERE papers_of_sheets.sheet_id = ? ORDER BY papers_of_sheets.id DESC LIMIT 1",
        (sheet_id,),
    ).fetchone()
    return row["size"] if row else None
