"""Which sheets were lit or bathed since some moment, run by run."""

import sqlite3
from dataclasses import dataclass

from footlight.notebook.dates import When


@dataclass(frozen=True)
class SheetRun:
    """A sheet in a run. ended: how the run did, None while it goes on or where it is not known."""

    sheet_id: int
    sheet: int
    sha: str | None
    when: When
    ended: str | None


def since(connection: sqlite3.Connection, from_unix_s: int) -> list[SheetRun]:
    """Every sheet of every run that began then or later, in the order of the runs."""
    rows = connection.execute(
        "SELECT run_sheets.sheet_id, sheets.number AS sheet, runs.sha, runs.from_unix_s, runs.to_unix_s,"
        " runs.ended FROM runs JOIN run_sheets ON run_sheets.run_id = runs.id"
        " JOIN sheets ON sheets.id = run_sheets.sheet_id"
        " WHERE runs.from_unix_s >= ? ORDER BY runs.from_unix_s, runs.id, sheets.number",
        (from_unix_s,),
    ).fetchall()
    return [
        SheetRun(
            row["sheet_id"],
            row["sheet"],
            row["sha"],
            When(row["from_unix_s"], row["to_unix_s"]),
            row["ended"],
        )
        for row in rows
    ]
