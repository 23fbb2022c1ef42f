"""The drift of one light over months: every light of a setup, in stops from its first reference.

Lights at other heights and stops are carried to where the first reference was found, by the same arithmetic
as in a plan; what cannot be carried (another lamp, another filter) is counted and left out.
"""

import math
import sqlite3
import statistics
import tempfile
import tomllib
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from footlight.errors import InputError
from footlight.light import exposure
from footlight.light.departure import Departure
from footlight.light.setup import Arrangement, Reference
from footlight.notebook.book import notebook
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
_LEAST_LIGHTS, _LAST_LIGHTS = 3, 10
_WEEK_S, _MONTH_S = 7 * 86_400, 30 * 86_400


@dataclass(frozen=True)
class DriftLight:
    """A light in stops from the first reference: planned, and least and most given. lamp_stops: the lamp's
    mean level from the learnt one, where it was measured."""

    sheet: int
    unix_s: int
    planned_stops: float | None
    least_stops: float
    most_stops: float
    lamp_stops: float | None = None


@dataclass(frozen=True)
class Ageing:
    """The lamp's level over its last counted lights: their median [stops from the learnt one], how many, and
    by how much it moves in thirty days [stops], None where they span less than a week."""

    stops: float
    lights: int
    month_stops: float | None


@dataclass(frozen=True)
class DriftReference:
    """A reference that held from then on. unix_s: None of the one that held before anything was written."""

    unix_s: int | None
    stops: float
    text: str


@dataclass(frozen=True)
class Drift:
    """What is known of a setup. base: the first reference, in words. left_out: lights that could not be
    carried to it."""

    setup: str
    base: str
    lights: tuple[DriftLight, ...]
    references: tuple[DriftReference, ...]
    left_out: int

    @property
    def ageing(self) -> Ageing | None:
        """How the lamp stands; None where fewer than three lights were measured."""
        levels = [(light.unix_s, light.lamp_stops) for light in self.lights if light.lamp_stops is not None]
        if len(levels) < _LEAST_LIGHTS:
            return None
        last = levels[-_LAST_LIGHTS:]
        return Ageing(statistics.median(stops for _, stops in last), len(last), _month_stops(levels))


def _month_stops(levels: list[tuple[int, float]]) -> float | None:
    times_s = [at_s for at_s, _ in levels]
    if max(times_s) - min(times_s) < _WEEK_S:
        return None
    return statistics.linear_regression(times_s, [stops for _, stops in levels]).slope * _MONTH_S


def trace_drift(
    book: Path, setup: str, since_s: int, picture: Path | None = None, replacing: bool = False
) -> Drift:
    """The drift of a light setup since a moment [s since 1970]; drawn into `picture`, if one is named.

    Raises NotebookError where no light of it is known, InputError for a picture that cannot be written.
    """
    if picture is not None:
        # Before anything is reckoned: a name that does not do is said at once.
        from footlight.report.sheet_of_graphs import check_name

        check_name(picture, replacing)
    with notebook(book, writing=False) as connection:
        drift = _drift(connection, setup, since_s)
    if picture is not None:
        _draw(drift, picture)
    return drift


def _drift(connection: sqlite3.Connection, setup: str, since_s: int) -> Drift:
    sent = _SentSetups(connection)
    lights = [
        (light, placed)
        for light in lights_given.since(connection, since_s)
        if (placed := sent.placed(light.sha, light.step)) and placed.name == setup
    ]
    history = light_setups.history(connection, _MOST_CHANGES)
    changes = [change for change in history if change.setup == setup][::-1]
    placed = lights[0][1] if lights else None
    first = _first(changes, placed)
    if placed is None or first is None:
        names = ", ".join(sorted(sent.names())) or "none"
        raise NotebookError(f"light setup '{setup}': the notebook has no light of it; there is {names}")
    base = placed.setup.arranged(first.height_mm, first.stop)
    text = f"{format_seconds(first.seconds)} at {base}"
    later = [_reference(change, placed, base, first.seconds) for change in changes]
    carried = [_light(light, here, base, first.seconds) for light, here in lights]
    return Drift(
        setup,
        text,
        tuple(light for light in carried if light is not None),
        (DriftReference(None, 0.0, text), *(reference for reference in later if reference is not None)),
        carried.count(None),
    )


def _draw(drift: Drift, picture: Path) -> None:
    from footlight.report.chart_drift import Light, Step, draw

    lights = [
        Light(light.unix_s, light.planned_stops, light.least_stops, light.most_stops)
        for light in drift.lights
    ]
    dated_s = [reference.unix_s for reference in drift.references if reference.unix_s]
    first_s = min([light.unix_s for light in lights] + dated_s)
    steps = [Step(held.unix_s or first_s, held.stops, held.text) for held in drift.references]
    draw(f"{drift.setup}: light given over time, from {drift.base}", lights, steps, picture)


def _first(changes: list[light_setups.Dated], placed: PlacedSetup | None) -> Reference | None:
    for written in [text for change in changes for text in (change.before, change.after) if text]:
        return _read(written)
    return placed.setup.reference if placed else None


def _read(written: str) -> Reference | None:
    try:
        return reference().read(written, "reference")
    except InputError:
        return None


def _reference(
    change: light_setups.Dated, placed: PlacedSetup, base: Arrangement, base_s: float
) -> DriftReference | None:
    read = _read(change.after)
    if read is None:
        return None
    at = placed.setup.arranged(read.height_mm, read.stop)
    stops = _stops(read.seconds, at, base, base_s, placed.setup.departure)
    return DriftReference(change.done_unix_s, stops, change.after) if stops is not None else None


def _light(light: LightGiven, here: PlacedSetup, base: Arrangement, base_s: float) -> DriftLight | None:
    at, law = here.setup.here, here.setup.departure
    planned = _stops(light.planned_ms / 1000, at, base, base_s, law) if light.planned_ms else None
    most = _stops(light.most_ms / 1000, at, base, base_s, law)
    if most is None:
        return None
    # Where a power cut hid the end, the least may be no light at all: the bar then reaches down four stops.
    least = _stops(max(light.least_ms, light.most_ms / 16) / 1000, at, base, base_s, law)
    lamp = math.log2(light.level / 1000) if light.level else None
    return DriftLight(light.sheet, light.unix_s, planned, least if least is not None else most, most, lamp)


def _stops(
    seconds: float, at: Arrangement, base: Arrangement, base_s: float, law: Departure | None
) -> float | None:
    """A light in stops from the base exposure, by the long-exposure law of its setup; None where it cannot be
    carried there."""
    try:
        # Rounded: a time of whole milliseconds is not zero to the last bit.
        return round(math.log2(exposure.convert(seconds, at, base, departure=law).seconds / base_s), 4) + 0.0
    except InputError:
        return None


class _SentSetups:
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
