"""Every light that was given since some moment, planned and done."""

import sqlite3
from dataclasses import dataclass


@dataclass(frozen=True)
class LightGiven:
    """A light of a sheet. unix_s: its run began, at the latest. planned_ms, least_ms, most_ms: light [ms].
    level: the lamp's mean level in thousandths of the learnt one, None where it was not measured."""

    sheet: int
    sha: str | None
    step: int
    unix_s: int
    planned_ms: int | None
    least_ms: int
    most_ms: int
    level: float | None = None


def since(connection: sqlite3.Connection, from_unix_s: int) -> list[LightGiven]:
    """Lights of runs that have a latest moment, in the order of time; where none was given, none is told."""
    rows = connection.execute(
        "SELECT sheets.number AS sheet, runs.sha, lights.step, runs.to_unix_s AS unix_s, lights.planned_ms,"
        " lights.least_ms, lights.most_ms, (SELECT sum(mean * gate_ms) * 1.0 / sum(gate_ms) FROM doses"
        " WHERE light_id = lights.id AND mean > 0) AS level FROM lights JOIN runs ON runs.id = lights.run_id"
        " JOIN sheets ON sheets.id = lights.sheet_id WHERE runs.to_unix_s >= ? AND lights.most_ms > 0"
        " ORDER BY runs.to_unix_s, lights.id",
        (from_unix_s,),
    ).fetchall()
    return [LightGiven(**dict(row)) for row in rows]
