"""When a sheet went into its first bath: from then on no camera exposes it."""

import sqlite3

from footlight.notebook.dates import When
from footlight.notebook.journal import programs

# Kinds of steps during which a sheet lies in a tray; a pause, as a pre-flash has, is none.
_IN_A_TRAY = ("bath", "judge", "hand")


def first_wet_run(connection: sqlite3.Connection, sheet_id: int) -> When | None:
    """When the first run began in which the sheet was in a bath; None while it is dry."""
    runs = connection.execute(
        "SELECT runs.sha, runs.sheets, runs.from_unix_s, runs.to_unix_s, group_concat(steps.step) AS taken"
        " FROM runs JOIN steps ON steps.run_id = runs.id WHERE steps.sheet_id = ?"
        " GROUP BY runs.id ORDER BY runs.first_number",
        (sheet_id,),
    ).fetchall()
    return next(
        (When(run["from_unix_s"], run["to_unix_s"]) for run in runs if _is_wet(connection, run)), None
    )


def _is_wet(connection: sqlite3.Connection, run: sqlite3.Row) -> bool:
    planned = programs.planned_steps(connection, run["sha"])
    if not planned:
        # A program that this notebook never sent: batches are pre-flashed, wet runs have one sheet each.
        return run["sheets"] == 1
    return any(planned[int(step) - 1]["kind"] in _IN_A_TRAY for step in run["taken"].split(","))
