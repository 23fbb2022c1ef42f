"""What a print was made by: its run, the sequence as it was sent, and what was really given."""

import json
import math
import sqlite3
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from footlight import errors
from footlight.notebook.errors import NotebookError
from footlight.notebook.sheets.by_number import BathRow, LightRow, RunPart, Story
from footlight_core.program import BATH

# A light that was given otherwise than planned by so much makes another print.
TOLD_STOPS = 0.05
_ROUND_MS = 100


@dataclass(frozen=True)
class Sent:
    """A program as it was sent. program: as the controller holds it. source, setups: the two files, '' for
    setups that were not kept. stored_unix_s: when it was first kept."""

    sha256: str
    title: str
    name: str
    program: dict[str, Any]
    source: str
    setups: str
    stored_unix_s: int


@dataclass(frozen=True)
class GivenLight:
    """The light of a step in all: planned and given [ms]; given_ms is None where a power cut hid it."""

    step: int
    name: str
    planned_ms: int
    given_ms: int | None

    @property
    def stops(self) -> float | None:
        """Given against planned [stops]; None where it is not known, or no light was given at all."""
        if not self.given_ms or not self.planned_ms:
            return None
        return math.log2(self.given_ms / self.planned_ms)

    @property
    def is_as_planned(self) -> bool:
        """Is it the light that was planned, as far as a print can show it?"""
        return self.stops is not None and abs(self.stops) < TOLD_STOPS


def run_to_repeat(story: Story, run: int | None = None) -> RunPart:
    """The run of that number, else the last one in which anything was done. Raises NotebookError."""
    done = [part for part in story.runs if part.rows]
    if run is not None:
        done = [part for part in story.runs if part.run == run]
    if not done:
        known = ", ".join(f"{part.run}" for part in story.runs) or "none"
        which = f"run {run}" if run is not None else "a run in which anything was done"
        raise NotebookError(f"sheet {story.number}: {which} is not known; its runs are: {known}")
    return done[-1]


def sent(connection: sqlite3.Connection, story: Story, part: RunPart) -> Sent:
    """The sequence that a run followed. Raises NotebookError where this notebook never sent it."""
    row = connection.execute(
        "SELECT * FROM programs WHERE substr(sha256, 1, 16) = ? AND source != ''", (part.sha,)
    ).fetchone()
    if row is None:
        raise NotebookError(
            f"sheet {story.number}: its sequence {(part.sha or 'of a damaged record')[:8]} was not sent from"
            " this notebook, so nothing is known of it but the times given; look at"
            f" {errors.act(f'sheet {story.number}')} and begin from {errors.act('new')}"
        )
    program = json.loads(row["program"])
    keys = ("sha256", "title", "name", "source", "setups", "stored_unix_s")
    return Sent(program=program, **{key: row[key] for key in keys})


def given_lights(part: RunPart) -> list[GivenLight]:
    """Every light step of a run with all that was given in it, one after the other."""
    by_step: dict[int, list[LightRow]] = {}
    for row in part.rows:
        if isinstance(row, LightRow):
            by_step.setdefault(row.step, []).append(row)
    return [_light(rows) for rows in by_step.values()]


def given_baths_ms(rows: Iterable[BathRow | LightRow]) -> dict[int, int]:
    """Step -> how long a bath really was, all its turns together [ms]; those of unknown length left out."""
    by_step: dict[int, int | None] = {}
    for row in rows:
        if isinstance(row, BathRow) and row.kind == BATH and row.how not in ("aside", "skipped"):
            known = by_step.get(row.step, 0)
            by_step[row.step] = None if row.real_ms is None or known is None else known + row.real_ms
    return {step: round(ms / _ROUND_MS) * _ROUND_MS for step, ms in by_step.items() if ms}


def _light(rows: list[LightRow]) -> GivenLight:
    known = all(row.least_ms == row.most_ms for row in rows)
    given_ms = sum(row.least_ms for row in rows) if known else None
    return GivenLight(rows[0].step, rows[0].name, rows[0].planned_ms or 0, given_ms)
