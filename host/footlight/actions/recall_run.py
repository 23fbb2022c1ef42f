"""Recall how a sheet went about its second exposure: what else may have changed blacks and whites."""

import re
import sqlite3
import tomllib
from dataclasses import replace

from footlight.notebook.sheets import by_number
from footlight.notebook.sheets.by_number import BathRow, RunPart, Story
from footlight.notebook.stock import baths
from footlight.notebook.stock.baths import Bath
from footlight.quantities import format_duration
from footlight_core.program import HAND, PAUSE

_MOVE = re.compile(r"(\w+ )?(to mark|piece) \d")


def lines(
    connection: sqlite3.Connection, story: Story, part: RunPart, source: str, first_light: int
) -> tuple[str, ...]:
    """A sentence each: baths before the lights, time wet, baths after them, and how old they were."""
    rows = [row for row in part.rows if isinstance(row, BathRow) and _in_a_bath(row)]
    before = [row for row in rows if row.step < first_light]
    after = [row for row in rows if row.step > first_light]
    wet_ms = _wet_ms(connection, story, part, {row.step for row in before}, first_light)
    words = [
        f"before its light: {_times(before)}" if before else "",
        f"wet for {format_duration(round(wet_ms, -3))} until its first light" if wet_ms else "",
        f"after it: {_times(after)}" if after else "",
        *_ages(connection, part, _trays(source)),
    ]
    return tuple(text for text in words if text)


def _in_a_bath(row: BathRow) -> bool:
    """Not a message, nor a move of the blade between two lights."""
    return row.kind != PAUSE and not (row.kind == HAND and _MOVE.match(row.name))


def _times(rows: list[BathRow]) -> str:
    return ", ".join(
        f"{row.name} {'–' if row.real_ms is None else format_duration(round(row.real_ms, -3))}"
        for row in rows
    )


def _wet_ms(
    connection: sqlite3.Connection, story: Story, part: RunPart, bathed: set[int], first_light: int
) -> int:
    """From the first bath to the first light [ms]; 0 where it is not known, or the power was cut between."""
    for records in by_number.records_by_boot(connection, story, part.run):
        begun = [record["t"] for record in records if record["k"] == "begin" and record["step"] in bathed]
        lit = [
            record["t"] - record["gate_ms"]
            for record in records
            if record["k"] == "gave" and record["step"] >= first_light
        ]
        if begun and lit:
            return max(0, lit[0] - begun[0])
    return 0


def _trays(source: str) -> list[str]:
    """Names of the trays of a sequence, in the order of their first use."""
    try:
        steps = tomllib.loads(source).get("step", [])
    except ValueError:
        # Its steps were found, so it was a sequence; a torn copy only costs these words.
        return []
    return list(dict.fromkeys(str(step["tray"]) for step in steps if "tray" in step))


def _ages(connection: sqlite3.Connection, part: RunPart, trays: list[str]) -> list[str]:
    """How old each bath was; nothing of baths that the notebook does not know."""
    at_s = part.when.from_unix_s
    if at_s is None:
        return []
    stood = [(tray, bath) for tray in trays if (bath := _standing_then(connection, tray, at_s))]
    return [f"{tray}: {_told(bath, at_s)}" for tray, bath in stood]


def _standing_then(connection: sqlite3.Connection, tray: str, at_s: int) -> Bath | None:
    """The bath that stood in a tray at a time, if the notebook knows one."""
    for bath in reversed(baths.every(connection, tray)):
        if bath.mixed_unix_s <= at_s and (bath.ended_unix_s is None or bath.ended_unix_s > at_s):
            return bath
    return None


def _told(bath: Bath, at_s: int) -> str:
    known = replace(bath, findings=tuple(finding for finding in bath.findings if finding.at_unix_s <= at_s))
    said = f"{known.age_h(at_s):.1f} h in the open tray"
    cleared = known.last("clearing")
    return said if cleared is None or not cleared.value else f"{said}, cleared in {cleared.value:.0f} s"
