"""Evenings in the darkroom: all of them, or one with its runs, sheets and baths."""

import sqlite3
from dataclasses import dataclass
from itertools import islice
from pathlib import Path

from footlight.notebook.book import notebook
from footlight.notebook.sheets import by_number, sessions
from footlight.notebook.sheets.sessions import Evening
from footlight.notebook.stock.baths import Bath


@dataclass(frozen=True)
class EveningSheets:
    """An evening, and the numbers of the sheets that were in the controller's hands."""

    evening: Evening
    sheets: tuple[int, ...]


@dataclass(frozen=True)
class SessionRun:
    """A run of an evening: what the notebook has of it, its sheets, and (number, verdict) of those that have
    one."""

    known: sqlite3.Row
    sheets: tuple[int, ...]
    verdicts: tuple[tuple[int, str], ...]


@dataclass(frozen=True)
class Session:
    """An evening, its runs in order, and the baths in use then."""

    evening: Evening
    runs: tuple[SessionRun, ...]
    baths: tuple[Bath, ...]


def list_sessions(book: Path, most: int) -> list[EveningSheets]:
    """The last `most` evenings, the newest first."""
    with notebook(book, writing=False) as connection:
        return [
            EveningSheets(evening, _sheets(connection, evening))
            for evening in islice(sessions.evenings(connection), most)
        ]


def recall_session(book: Path, name: str | None) -> Session:
    """The evening of that name, or the last. Raises NotebookError with the nearest name."""
    with notebook(book, writing=False) as connection:
        evening = sessions.find(connection, name)
        numbers = sessions.sheets_of(connection, evening)
        runs = tuple(
            SessionRun(
                by_number.run_of(connection, run),
                tuple(numbers[run]),
                tuple(by_number.verdicts_of_run(connection, run)),
            )
            for run in evening.runs
        )
        return Session(evening, runs, tuple(sessions.baths_in(connection, evening)))


def _sheets(connection: sqlite3.Connection, evening: Evening) -> tuple[int, ...]:
    by_run = sessions.sheets_of(connection, evening)
    return tuple(sorted({number for sheets in by_run.values() for number in sheets}))
