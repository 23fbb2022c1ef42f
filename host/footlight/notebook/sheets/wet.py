"""Whether a sheet lay in a tray in a run, and when it first did: from then on no camera exposes it."""

import sqlite3
from collections.abc import Iterable

from footlight.notebook.dates import When
from footlight.notebook.journal import programs
from footlight_core.program import in_tray


def in_a_tray(answers: Iterable[bool | None], sheets: int) -> bool:
    """Did a sheet lie in a tray in a run?

    answers: whether it did in each step that it took, None where the program was never sent from this
    notebook. sheets: of the run; where nothing is known a batch is taken for a pre-flash, one sheet for wet.
    """
    return any(sheets == 1 if answer is None else answer for answer in answers)


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
    answers = [in_tray(planned[int(step) - 1]) for step in run["taken"].split(",")] if planned else [None]
    return in_a_tray(answers, run["sheets"])
