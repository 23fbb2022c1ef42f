"""The drift of one light over months: every light of a setup, in stops from its first reference.

Lights at other heights and stops are carried to where the first reference was found, by the same arithmetic
as in a plan; what cannot be carried (another lamp, another filter) is counted and left out.
"""

import math
import sqlite3
import tempfile
import tomllib
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from footlight.errors import InputError
from footlight.light import exposure
from footlight.light.setup import Arrangement, Reference
from footlight.notebook.errors import NotebookError
from footlight.notebook.journal import lights_given
from footlight.notebook.journal.lights_given import LightGiven
from footlight.notebook.sheets import readings
from footlight.notebook.stock import light_setups
from footlight.quantities import format_seconds, parse_length_mm, parse_stop
from footlight.sequence.model import PlacedSetup
from footlight.sequence.reference import reference
from footlight.sequence.setups import at_step, load_setups

_MOST_CHANGES = 1000


@dataclass(frozen=True)
class Given:
    """A light in stops from the first reference: planned, and least and most given."""

    sheet: int
    unix_s: int
    planned_stops: float | None
    least_stops: float
    most_stops: float


@dataclass(frozen=True)
class Found:
    """A reference that held from then on. unix_s: None of the one that held before anything was written."""

    unix_s: int | None
    stops: float
    text: str


@dataclass
class Drift:
    """What is known of a setup. base: the first reference, in words. left_out: lights that could not be
    carried to it."""

    setup: str
    base: str
    given: list[Given] = field(default_factory=list)
    found: list[Found] = field(default_factory=list)
    left_out: int = 0


def drift(connection: sqlite3.Connection, setup: str, since_s: int) -> Drift:
    """The drift of a light setup. Raises NotebookError where no light or reference of it is known."""
    known = _Sent(connection)
    lights = [
        (one, placed)
        for one in lights_given.since(connection, since_s)
        if (placed := known.placed(one.sha, one.step)) and placed.name == setup
    ]
    changes = [one for one in light_setups.history(connection, _MOST_CHANGES) if one.setup == setup][::-1]
    placed = lights[0][1] if lights else None
    first = _first(changes, placed)
    if placed is None or first is None:
        names = ", ".join(sorted(known.names())) or "none"
        raise NotebookError(f"light setup '{setup}': the notebook has no light of it; there is {names}")
    base = placed.setup.arranged(first.height_mm, first.stop)
    result = Drift(setup, f"{format_seconds(first.seconds)} at {base}")
    result.found.append(Found(None, 0.0, result.base))
    result.found += [one for change in changes if (one := _found(change, placed, base, first.seconds))]
    for one, here in lights:
        given = _given(one, here, base, first.seconds)
        if given is None:
            result.left_out += 1
        else:
            result.given.append(given)
    return result


def _first(changes: list[light_setups.Dated], placed: PlacedSetup | None) -> Reference | None:
    for written in [text for change in changes for text in (change.before, change.after) if text]:
        return _read(written)
    return placed.setup.reference if placed else None


def _read(written: str) -> Reference | None:
    try:
        return reference().read(written, "reference")
    except InputError:
        return None


def _found(change: light_setups.Dated, placed: PlacedSetup, base: Arrangement, base_s: float) -> Found | None:
    read = _read(change.after)
    stops = (
        _stops(read.seconds, placed.setup.arranged(read.height_mm, read.stop), base, base_s) if read else None
    )
    return Found(change.done_unix_s, stops, change.after) if stops is not None else None


def _given(one: LightGiven, here: PlacedSetup, base: Arrangement, base_s: float) -> Given | None:
    at = here.setup.here
    planned = _stops(one.planned_ms / 1000, at, base, base_s) if one.planned_ms else None
    most = _stops(one.most_ms / 1000, at, base, base_s)
    if most is None:
        return None
    # Where a power cut hid the end, the least may be no light at all: the bar then reaches down four stops.
    least = _stops(max(one.least_ms, one.most_ms / 16) / 1000, at, base, base_s)
    return Given(one.sheet, one.unix_s, planned, least if least is not None else most, most)


def _stops(seconds: float, at: Arrangement, base: Arrangement, base_s: float) -> float | None:
    """A light in stops from the base exposure, None where it cannot be carried there."""
    try:
        # Rounded: a time of whole milliseconds is not zero to the last bit.
        return round(math.log2(exposure.convert(seconds, at, base).seconds / base_s), 4) + 0.0
    except InputError:
        return None


class _Sent:
    """Light setups of sequences as they were sent, each read once."""

    def __init__(self, connection: sqlite3.Connection) -> None:
        self._connection = connection
        self._steps: dict[str | None, dict[int, PlacedSetup]] = {}

    def placed(self, sha: str | None, step: int) -> PlacedSetup | None:
        """The setup of a light step as it stood; None where the notebook does not have it."""
        if sha not in self._steps:
            self._steps[sha] = self._read(sha)
        return self._steps[sha].get(step)

    def names(self) -> set[str]:
        """Every setup that a light was given with."""
        return {placed.name for steps in self._steps.values() for placed in steps.values()}

    def _read(self, sha: str | None) -> dict[int, PlacedSetup]:
        sent = readings.as_sent(self._connection, sha)
        if sent is None or not sent.setups:
            return {}
        with tempfile.TemporaryDirectory() as folder:
            path = Path(folder) / "light-setups.toml"
            path.write_text(sent.setups, encoding="utf-8")
            setups = load_setups(path).setups
        steps = enumerate(tomllib.loads(sent.source).get("step", []), start=1)
        return {number: _at(setups[raw["setup"]], raw) for number, raw in steps if raw.get("setup") in setups}


def _at(placed: PlacedSetup, raw: dict[str, Any]) -> PlacedSetup:
    height_mm = parse_length_mm(raw["height"], "height") if "height" in raw else None
    stop = parse_stop(raw["stop"], "stop") if "stop" in raw else None
    return at_step(placed, height_mm, stop, "light")
