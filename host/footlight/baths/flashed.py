"""Sheets that were pre-flashed and have not been in a bath yet."""

import sqlite3
from dataclasses import dataclass

from footlight.notebook.journal import programs, sheets_run
from footlight.notebook.journal.sheets_run import SheetRun
from footlight_core.program import LIGHT, in_tray

_DAYS = 60  # what lay longer is no longer of this work


@dataclass(frozen=True)
class Flashed:
    """sheets: their numbers. oldest_unix_s: when the run of the first of them began."""

    sheets: tuple[int, ...]
    oldest_unix_s: int


def waiting(connection: sqlite3.Connection, now_s: int) -> Flashed | None:
    """The sheets of dry runs that no wet run has had; None where there are none."""
    dry: dict[int, SheetRun] = {}
    known: dict[str | None, bool] = {}
    for sheet_run in sheets_run.since(connection, now_s - _DAYS * 86_400):
        if sheet_run.sha not in known:
            known[sheet_run.sha] = _is_dry(connection, sheet_run.sha)
        if known[sheet_run.sha]:
            dry.setdefault(sheet_run.sheet_id, sheet_run)
        else:
            dry.pop(sheet_run.sheet_id, None)
    if not dry:
        return None
    moments = [
        sheet_run.when.from_unix_s for sheet_run in dry.values() if sheet_run.when.from_unix_s is not None
    ]
    return Flashed(tuple(sorted(sheet_run.sheet for sheet_run in dry.values())), min(moments))


def _is_dry(connection: sqlite3.Connection, sha: str | None) -> bool:
    """A sequence with lights and no bath. One that was not sent from here may have had any."""
    steps = programs.planned_steps(connection, sha)
    has_light = any(step["kind"] == LIGHT for step in steps)
    return has_light and not any(map(in_tray, steps))
