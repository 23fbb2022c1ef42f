"""The paper of sheets that come home: nobody should have to type what the batch in use already tells."""

import sqlite3
import tomllib
from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, field

from footlight.errors import InputError
from footlight.notebook.acts import act
from footlight.notebook.stock import papers
from footlight.notebook.stock.papers import Batch, Sides
from footlight_core import records


@dataclass
class Filled:
    """`given`: name of a batch -> numbers of the sheets that are now of it. `short`: batches that would have
    been used and have too few sheets left by the count, with the numbers that have no paper for it."""

    given: dict[str, list[int]] = field(default_factory=dict)
    short: dict[str, list[int]] = field(default_factory=dict)


def fill_in(connection: sqlite3.Connection, epoch: int, numbers: Iterable[int], now_s: int) -> Filled:
    """Give the batch in use for their size to those of the sheets for which no paper was ever written."""
    by_size: dict[Sides | None, list[sqlite3.Row]] = defaultdict(list)
    for number in sorted(numbers):
        sheet = _without_paper(connection, epoch, number)
        if sheet:
            by_size[_sides(connection, sheet["id"])].append(sheet)
    filled = Filled()
    for sides, sheets in by_size.items():
        batch = papers.in_use(connection, sides)
        there = [sheet for sheet in sheets if batch and not _came_later(connection, batch, sheet["id"])]
        if batch and there:
            _give(connection, batch, there, now_s, filled)
    return filled


def _came_later(connection: sqlite3.Connection, batch: Batch, sheet_id: int) -> bool:
    """Was the batch written down only after the sheet had surely had its first light?"""
    row = connection.execute(
        "SELECT min(runs.to_unix_s) AS lit_unix_s, (SELECT done_unix_s FROM batches JOIN acts ON acts.id ="
        " batches.act_id WHERE batches.id = ?) AS added_unix_s FROM run_sheets JOIN runs ON runs.id ="
        " run_sheets.run_id WHERE run_sheets.sheet_id = ?",
        (batch.id, sheet_id),
    ).fetchone()
    return row["lit_unix_s"] is not None and row["added_unix_s"] > row["lit_unix_s"]


def _give(
    connection: sqlite3.Connection, batch: Batch, sheets: list[sqlite3.Row], now_s: int, filled: Filled
) -> None:
    most = max(0, batch.left)
    filled_in, short = sheets[:most], sheets[most:]
    if filled_in:
        numbers = [sheet["number"] for sheet in filled_in]
        filled.given.setdefault(batch.name, []).extend(numbers)
        listed = ", ".join(str(number) for number in numbers)
        came = f"sheet{'s' if len(numbers) > 1 else ''} {listed} came home"
        with act(connection, f"{came}: paper {batch.name}", now_s) as act_id:
            papers.put(connection, act_id, [sheet["id"] for sheet in filled_in], batch)
    if short:
        filled.short.setdefault(batch.name, []).extend(sheet["number"] for sheet in short)


def _without_paper(connection: sqlite3.Connection, epoch: int, number: int) -> sqlite3.Row | None:
    # A paper that was taken back counts: what the printer has undone is not done again.
    return connection.execute(
        "SELECT id, number FROM sheets WHERE epoch_id = ? AND number = ?"
        " AND NOT EXISTS (SELECT 1 FROM papers_of_sheets WHERE sheet_id = sheets.id)",
        (epoch, number),
    ).fetchone()


def _sides(connection: sqlite3.Connection, sheet_id: int) -> Sides | None:
    """The size that the sequences of its runs were written for; None where none says it."""
    rows = connection.execute(
        "SELECT programs.source FROM run_sheets JOIN runs ON runs.id = run_sheets.run_id JOIN programs"
        f" ON substr(programs.sha256, 1, {records.SHA_CHARS}) = runs.sha"
        " WHERE run_sheets.sheet_id = ? ORDER BY runs.first_number DESC",
        (sheet_id,),
    ).fetchall()
    return next((sides for row in rows if (sides := _written_for(row["source"]))), None)


def _written_for(source: str) -> Sides | None:
    try:
        size = tomllib.loads(source).get("sheet")
        return papers.sides_of(size) if size else None
    except (tomllib.TOMLDecodeError, InputError):
        # A sequence of another version: its size is not known here.
        return None
