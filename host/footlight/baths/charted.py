"""What a bath's chart shows: figures of prints and clearing times, each at the use and age of the bath."""

import sqlite3
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from footlight.baths.condition import Condition, Shelf
from footlight.baths.visits import Visit
from footlight.notebook.sheets import readings
from footlight.notebook.sheets.readings import Kept
from footlight.notebook.stock.baths import same_name

What = Literal["black", "veil", "mottle", "time"]


@dataclass(frozen=True)
class Point:
    """One figure. value: black (Dmax), veil and mottle [D], time [s]. per_l: use of the bath then, in sheets
    of 8x10 a litre. age_h [h]. baths_before: 0 for the last bath of its name, 1 for the one before. sheet:
    its number, None of a time that was written."""

    what: What
    value: float
    per_l: float
    age_h: float
    baths_before: int
    sheet: int | None


def points(connection: sqlite3.Connection, shelf: Shelf, name: str) -> list[Point]:
    """Every figure that belongs to baths of that name, the oldest bath first."""
    named = [condition for condition in shelf.conditions if same_name(condition.bath.name, name)]
    figures: list[Point] = []
    for baths_before, condition in zip(range(len(named) - 1, -1, -1), named, strict=True):
        figures += [*_of_prints(connection, condition, baths_before), *_times(condition, baths_before)]
    return figures


def _of_prints(connection: sqlite3.Connection, condition: Condition, baths_before: int) -> Iterable[Point]:
    """Of each print that was read, its last reading, at the bath's use when it left it last."""
    last = {visit.sheet_id: (visit, used) for visit, used in _used(condition)}
    for sheet_id, (visit, used) in last.items():
        prints = [kept for kept in readings.of_sheet(connection, sheet_id) if kept.kind == "print"]
        for what, value in _figures(prints[-1]) if prints else ():
            yield Point(what, value, used, condition.bath.age_h(visit.unix_s), baths_before, visit.sheet)


def _figures(kept: Kept) -> list[tuple[What, float]]:
    values: list[tuple[What, float | None]] = [
        ("black", kept.d_max),
        ("veil", kept.veil_d),
        ("mottle", kept.mottle_d),
    ]
    return [(what, value) for what, value in values if value is not None]


def _times(condition: Condition, baths_before: int) -> Iterable[Point]:
    """Written clearing times; without two of them what the steps judged by eye took."""
    written = [finding for finding in condition.bath.all("clearing") if finding.value]
    if len(written) > 1:
        for finding in written:
            used = [after for visit, after in _used(condition) if visit.unix_s <= finding.at_unix_s]
            age_h = condition.bath.age_h(finding.at_unix_s)
            yield Point("time", finding.value or 0.0, used[-1] if used else 0.0, age_h, baths_before, None)
        return
    for visit, used in _used(condition):
        if visit.cleared_s:
            age_h = condition.bath.age_h(visit.unix_s)
            yield Point("time", visit.cleared_s, used, age_h, baths_before, visit.sheet)


def _used(condition: Condition) -> Iterable[tuple[Visit, float]]:
    """Each visit, with how much the bath was used with it, in sheets of 8x10 a litre."""
    used = 0.0
    for visit in condition.visits:
        used += visit.area_8x10
        yield visit, used / (condition.bath.working_ml / 1000)
