"""Match a new batch of paper to the old one, from the readings of a strip of each."""

import json
import math
import sqlite3
import time
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from footlight.errors import InputError
from footlight.notebook.book import notebook
from footlight.notebook.sheets import readings
from footlight.notebook.sheets.readings import Kept
from footlight.notebook.stock import papers
from footlight.quantities import format_stops

_KINDS = {"strip": "second", "eye": "second", "pre-flash": "pre-flash"}


@dataclass(frozen=True)
class Difference:
    """How much more light the new paper needs, with the 90 % interval [stops]."""

    stops: float
    low_stops: float
    high_stops: float

    def __str__(self) -> str:
        middle, low, high = (
            format_stops(round(value, 2)) for value in (self.stops, self.low_stops, self.high_stops)
        )
        return f"{middle} ({low} to {high})"


@dataclass(frozen=True)
class PaperMatch:
    """What was found. kind: second or pre-flash. batch: for which it was written, None for none.

    old_stops: what is known of the old batch for that light, from the reference [stops].
    """

    kind: str
    difference: Difference
    batch: str | None
    old_stops: float


def match_papers(book: Path, old: int, new: int, batch: str | None = None) -> PaperMatch:
    """Compare two readings, by number, and write what the new batch needs, in one act.

    batch: the new one; without it, that of the new strip's sheet. Raises InputError for two that cannot be
    compared, NotebookError for what is not there.
    """
    with notebook(book, writing=True) as connection:
        pair = readings.find(connection, old), readings.find(connection, new)
        kind = _kind(*pair)
        difference = _difference(*pair)
        into = papers.find(connection, batch) if batch else _batch(connection, pair[1])
        before = _known_stops(connection, pair[0], kind)
        if into is not None:
            text = f"reading {new} against {old}: {difference}"
            finding = papers.Finding(kind, round(before + difference.stops, 4), pair[1].setup, text)
            papers.note_findings(connection, into, [finding], int(time.time()), pair[1].id)
    return PaperMatch(kind, difference, into.name if into else None, before)


def _kind(old: Kept, new: Kept) -> str:
    """What is compared. Raises InputError where these two cannot be."""
    if old.kind not in _KINDS or new.kind not in _KINDS or _KINDS[old.kind] != _KINDS[new.kind]:
        raise InputError(
            f"readings {old.id} and {new.id}: {old.kind} and {new.kind}; name two strips of one kind"
        )
    places = [
        (kept.setup, _result(kept)["taken"]["place"]) for kept in (old, new) if _result(kept).get("taken")
    ]
    if len(places) < 2 or places[0] != places[1]:
        lit = " and ".join(f"{place} ({setup})" for setup, place in places) or "unknown places"
        raise InputError(
            f"readings {old.id} and {new.id}: lit at {lit}; only strips that the notebook knows to be lit by"
            " the same light at the same place tell papers apart"
        )
    return _KINDS[old.kind]


def _difference(old: Kept, new: Kept) -> Difference:
    """New − old: the two intervals are independent."""
    (a, a_low, a_high), (b, b_low, b_high) = _limit(old), _limit(new)
    return Difference(
        b - a, b - a - math.hypot(b - b_low, a_high - a), b - a + math.hypot(b_high - b, a - a_low)
    )


def _limit(kept: Kept) -> tuple[float, float, float]:
    """Full black or threshold with its interval, in stops from 1 s."""
    result = _result(kept)
    if kept.kind == "pre-flash":
        values = [result["threshold_s"], result["low_s"], result["high_s"]]
        stops = [None if value is None else math.log2(value) for value in values]
    else:
        full = (
            result["full_stops"]
            if kept.kind == "eye"
            else [result["full"][key] for key in ("low", "stops", "high")]
        )
        base = math.log2(result["present_s"])
        low, middle, high = (None if value is None else base + value for value in full)
        stops = [middle, low, high]
    if None in stops:
        raise InputError(
            f"reading {kept.id}: what is to be compared lies beyond its strip; make a strip that reaches it"
        )
    return stops[0], stops[1], stops[2]  # pyright: ignore[reportReturnType]


def _result(kept: Kept) -> dict[str, Any]:
    return json.loads(kept.result)


def _batch(connection: sqlite3.Connection, kept: Kept):
    return papers.of_sheet(connection, kept.sheet_id) if kept.sheet_id is not None else None


def _known_stops(connection: sqlite3.Connection, kept: Kept, kind: str) -> float:
    """What is known of the old batch for that light [stops from the reference]; 0 where nothing is."""
    batch = _batch(connection, kept)
    if batch is None:
        return 0.0
    values = [
        finding.value
        for finding in papers.findings(connection, batch)
        if finding.kind == kind and finding.setup == kept.setup and finding.value is not None
    ]
    return values[-1] if values else 0.0
