"""How a sheet went before its second exposure and after it: what else may have changed blacks and whites."""

import re
import sqlite3
import tomllib

from footlight.notebook import readings, sheets
from footlight.notebook.sheets import BathRow, RunPart, Story
from footlight.quantities import format_duration
from footlight_core.program import HAND, PAUSE

_HOURS = 3600
_MOVE = re.compile(r"(\w+ )?(to mark|piece) \d")


def lines(
    connection: sqlite3.Connection, story: Story, part: RunPart, source: str, first_light: int
) -> tuple[str, ...]:
    """A sentence each: baths before the lights, time wet, baths after them, and how old they were."""
    baths = [row for row in part.rows if isinstance(row, BathRow) and _in_a_bath(row)]
    before = [row for row in baths if row.step < first_light]
    after = [row for row in baths if row.step > first_light]
    wet_ms = _wet_ms(connection, story, part, {row.step for row in before}, first_light)
    found = [
        f"before its light: {_times(before)}" if before else "",
        f"wet for {format_duration(round(wet_ms, -3))} until its first light" if wet_ms else "",
        f"after it: {_times(after)}" if after else "",
        *_ages(connection, part, _trays(source)),
    ]
    return tuple(text for text in found if text)


def _in_a_bath(row: BathRow) -> bool:
    """Not a message, nor a move of the blade between two lights."""
    return row.kind != PAUSE and not (row.kind == HAND and _MOVE.match(row.name))


def _times(rows: list[BathRow]) -> str:
    return ", ".join(
        f"{row.name} {'–' if row.real_ms is None else format_duration(round(row.real_ms, -3))}"
        for row in rows
    )


def _wet_ms(
    connection: sqlite3.Connection, story: Story, part: RunPart, baths: set[int], first_light: int
) -> int:
    """From the first bath to the first light [ms]; 0 where it is not known, or the power was cut between."""
    for records in sheets.records_by_boot(connection, story, part.run):
        begun = [one["t"] for one in records if one["k"] == "begin" and one["step"] in baths]
        lit = [
            one["t"] - one["gate_ms"] for one in records if one["k"] == "gave" and one["step"] >= first_light
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
    mixed = {tray: readings.mixed_before(connection, tray, at_s) for tray in trays}
    known = [f"{tray} mixed {_age(at_s - found_s)} before" for tray, found_s in mixed.items() if found_s]
    return [", ".join(known)] if known else []


def _age(seconds: int) -> str:
    hours = seconds / _HOURS
    if hours < 1:
        return f"{seconds // 60} min"
    return f"{hours:.0f} h" if hours < 48 else f"{hours / 24:.0f} days"
