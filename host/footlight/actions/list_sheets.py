"""The list of sheets, the newest first: all of them, or those that fit."""

import sqlite3
from dataclasses import dataclass
from pathlib import Path

from footlight.notebook.book import notebook
from footlight.notebook.sheets import listing, sessions
from footlight.notebook.sheets.listing import Listed, Wanted
from footlight.notebook.stock import papers


@dataclass(frozen=True)
class Filters:
    """Which sheets; None: whatever it is. paper, session: by name. since_unix_s: with a run since then [s
    since 1970], or maybe since."""

    paper: str | None = None
    session: str | None = None
    defect: str | None = None
    verdict: str | None = None
    since_unix_s: int | None = None


@dataclass(frozen=True)
class SheetList:
    """The sheets. older: how many more there are of all; more: whether more fit the filters."""

    sheets: tuple[Listed, ...]
    older: int = 0
    more: bool = False


def list_sheets(book: Path, most: int, filters: Filters | None = None) -> SheetList:
    """The last `most` sheets; of several filters, those that fit all. Raises NotebookError for a paper or a
    session that the notebook has not."""
    with notebook(book, writing=False) as connection:
        if filters is not None and filters != Filters():
            fitting, more = listing.some(connection, _wanted(connection, filters), most)
            return SheetList(tuple(fitting), more=bool(more))
        newest = listing.newest(connection, most)
        return SheetList(tuple(newest), older=listing.count(connection) - len(newest))


def _wanted(connection: sqlite3.Connection, filters: Filters) -> Wanted:
    paper, session = filters.paper, filters.session
    return Wanted(
        paper=papers.find(connection, paper).id if paper else None,
        session=listing.runs_as_text(sessions.find(connection, session).runs) if session else None,
        defect=filters.defect,
        verdict=filters.verdict,
        since_unix_s=filters.since_unix_s,
    )
