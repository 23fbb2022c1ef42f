"""Take the light that a strip got: as it was typed, or as it was really given, from the notebook, where
journal, sequence and light setups meet."""

import math
import sqlite3
from dataclasses import dataclass
from pathlib import Path

from footlight import quantities as q
from footlight.actions import recall_run
from footlight.errors import InputError, act, field
from footlight.light.strip.plan import Manner
from footlight.notebook.book import notebook
from footlight.notebook.sheets import by_number, readings
from footlight.notebook.sheets.by_number import LightRow, RunPart, Story
from footlight.sequence.model import PlacedSetup
from footlight.sequence.setups import Setups, at_step, load_setups, setups_from_text
from footlight.sequence.strip_lights import StripLight, StripLights, strip_lights
from footlight.strips.result import Taken

# Two bands whose light differs by less cannot be told apart, and are one band.
_SAME_STOPS = 0.01
# Light that is less sure than this would make a reading of nothing.
_MOST_HIDDEN_STOPS = 1.0


@dataclass(frozen=True)
class StripOfSheet:
    """Which strip of the notebook. number: of the sheet. present_s: the dose given now, typed [s].

    run, manner, present_s, setups: where the usual is wrong.
    """

    number: int
    controller: str | None = None
    run: int | None = None
    manner: Manner = "covered"
    present_s: float | None = None
    setups: Path = Path("light-setups.toml")


@dataclass(frozen=True)
class TypedDoses:
    """Doses as a person wrote them: of every band, zero first [s]; the dose that is given now [s]."""

    totals_s: tuple[float, ...]
    present_s: float | None = None


@dataclass(frozen=True)
class StripDoses:
    """The doses of a strip.

    present_s: what is given now [s]. totals_s: of every band, zero first; the middle of its bounds [s].
    taken: what the notebook told, if it did. sheet_id: of the sheet that the reading is kept with.
    """

    present_s: float
    totals_s: tuple[float, ...]
    taken: Taken | None = None
    sheet_id: int | None = None

    @property
    def bounds_s(self) -> tuple[tuple[float, ...], tuple[float, ...]]:
        """Least and most where a power cut hid some light, else empty [s]."""
        if self.taken is None or self.taken.least_s == self.taken.most_s:
            return (), ()
        return self.taken.least_s, self.taken.most_s


@dataclass(frozen=True)
class _StripRun:
    """A run of a sheet that made a strip, with its sequence as it was sent."""

    part: RunPart
    sent: readings.Sent
    lit: StripLights


def take(book: Path, sheet: StripOfSheet | None, typed: TypedDoses | None) -> StripDoses:
    """The doses of a strip; those that were typed go before those of the notebook.

    Raises InputError where neither tells them, NotebookError for a sheet that is not there.
    """
    if typed is None:
        if sheet is None:
            raise InputError(f"strip: give {field('sheet')} or {field('doses')}")
        with notebook(book, writing=False) as connection:
            return of_sheet(connection, sheet)
    if typed.present_s is None:
        raise InputError(
            f"strip: give {field('present')}, the dose that is given now, for example"
            f" {field('present')} '8 s'"
        )
    sheet_id = sheet and sheet_id_of(book, sheet.number, sheet.controller)
    return StripDoses(typed.present_s, typed.totals_s, sheet_id=sheet_id)


def sheet_id_of(book: Path, number: int, controller: str | None) -> int:
    """Of a sheet by its number. Raises NotebookError for one that is not there."""
    with notebook(book, writing=False) as connection:
        return by_number.find(connection, number, controller)["id"]


def of_sheet(connection: sqlite3.Connection, strip: StripOfSheet) -> StripDoses:
    """The doses of a strip. Raises FootlightError, one line, for what the notebook cannot tell."""
    story = by_number.story(connection, by_number.find(connection, strip.number, strip.controller))
    run = _strip_of(connection, story, strip)
    bands = _bands(run, strip.number)
    kept, merged = _merged(bands)
    first = run.lit.lights[0]
    place, source = _placed(run, first, strip)
    present_s, present_said = _present(place, source, strip, kept[len(kept) // 2][1])
    said = (*_said(run, strip), *merged, *present_said)
    taken = Taken(
        sheet=strip.number,
        run=run.part.run,
        first_step=first.step,
        setup=first.setup,
        place=str(place.setup.here) if place else "",
        least_s=tuple(round(least, 4) for least, _ in kept),
        most_s=tuple(round(most, 4) for _, most in kept),
        said=said,
        run_words=recall_run.lines(connection, story, run.part, run.sent.source, first.step),
    )
    totals_s = tuple(math.sqrt(least * most) for least, most in zip(taken.least_s, taken.most_s, strict=True))
    return StripDoses(present_s, totals_s, taken, story.sheet_id)


def _strip_of(connection: sqlite3.Connection, story: Story, strip: StripOfSheet) -> _StripRun:
    """The last run of the sheet that lit a strip, or the run that was asked for."""
    for part in reversed(story.runs):
        sent = readings.as_sent(connection, part.sha)
        if sent is None or strip.run not in (None, part.run):
            continue
        lit = {row.step for row in part.rows if isinstance(row, LightRow) and row.most_ms}
        groups = [
            group
            for group in strip_lights(sent.source, strip.manner)
            if len(lit & {light.step for light in group.lights}) > 1
        ]
        if groups:
            return _StripRun(part, sent, groups[-1])
    run = "" if strip.run is None else f", run {strip.run}"
    raise InputError(
        f"sheet {strip.number}{run}: no strip of three lights or more is in the notebook with the sequence"
        f" that gave it; bring the journal home with {act('collect')}, or give {field('doses')} and"
        f" {field('present')}"
    )


def _bands(run: _StripRun, number: int) -> list[tuple[float, float]]:
    """(least, most) of each band [s]; the same light begun twice counts twice."""
    rows = [row for row in run.part.rows if isinstance(row, LightRow)]
    bands = []
    for band in range(run.lit.bands):
        reached = {light.step for light in run.lit.lights if light.first <= band <= light.last}
        lights = [row for row in rows if row.step in reached]
        least, most = (sum(getattr(row, f"{end}_ms") for row in lights) / 1000 for end in ("least", "most"))
        if most and (not least or math.log2(most / least) > _MOST_HIDDEN_STOPS):
            raise InputError(
                f"sheet {number}, band {band}: after the power cut its light is known only between"
                f" {least:.2f} and {most:.2f} s, too far apart to read by; give {field('doses')} if"
                " you know better"
            )
        bands.append((least, most))
    return bands


def _merged(bands: list[tuple[float, float]]) -> tuple[list[tuple[float, float]], tuple[str, ...]]:
    """Bands without those that got the same light as their neighbour: they are one wider band."""
    kept = bands[:1]
    said = []
    for number, (least, most) in enumerate(bands[1:], start=1):
        before = kept[-1][1]
        if most == before or (most and before and abs(math.log2(most / before)) < _SAME_STOPS):
            said.append(
                f"band {number} got no more light than the one before: both are read as one, wider band"
            )
        elif most < before:
            raise InputError(
                f"band {number} got {most:.2f} s, less than the band before ({before:.2f} s): the light"
                f" of the bands does not rise; say how they were lit ({field('manner')}), or give"
                f" {field('doses')}"
            )
        else:
            kept.append((least, most))
    return kept, tuple(said)


def _placed(run: _StripRun, light: StripLight, strip: StripOfSheet) -> tuple[PlacedSetup | None, str]:
    """The light setup where the strip stood, and where it was read."""
    setups, source = _setups(run.sent, strip)
    if setups is None:
        return None, ""
    placed = setups.get(light.setup, f"step {light.step}: setup")
    height = q.parse_length_mm(light.height, "height") if light.height else None
    stop = q.parse_stop(light.stop, "stop") if light.stop else None
    return at_step(placed, height, stop, f"step {light.step}"), source


def _setups(sent: readings.Sent, strip: StripOfSheet) -> tuple[Setups | None, str]:
    if sent.setups:
        return setups_from_text(sent.setups, "light setups as sent"), "as it was sent"
    if strip.setups.is_file():
        return load_setups(strip.setups), f"as {strip.setups.name} has it now"
    return None, ""


def _present(
    placed: PlacedSetup | None, source: str, strip: StripOfSheet, middle_s: float
) -> tuple[float, tuple[str, ...]]:
    """The present dose at the strip's place [s]."""
    if strip.present_s is not None:
        return strip.present_s, ("present dose as typed",)
    if placed is None or placed.setup.reference is None:
        why = "its light setups were not kept" if placed is None else f"'{placed.name}' has no reference yet"
        return middle_s, (f"stops are counted from the middle step, {q.format_seconds(middle_s)}: {why}",)
    from footlight.light.exposure import for_setup

    seconds = for_setup(placed.setup).seconds
    dose = f"present dose {q.format_seconds(seconds)} at {placed.setup.here}"
    return seconds, (f"{dose}, light setup '{placed.name}' {source}",)


def _said(run: _StripRun, strip: StripOfSheet) -> tuple[str, ...]:
    steps = [light.step for light in run.lit.lights]
    how = "their notes" if run.lit.as_noted else f"the manner '{strip.manner}', since their notes do not say"
    said = [
        f"light of each step as given, from the journal: sheet {strip.number}, run {run.part.run},"
        f" steps {steps[0]} to {steps[-1]}; which bands they reached from {how}"
    ]
    for row in run.part.rows:
        if isinstance(row, LightRow) and row.step in steps:
            said += _otherwise(row)
    return tuple(said)


def _otherwise(row: LightRow) -> list[str]:
    """What was given otherwise than planned."""
    least_s, most_s, planned_s = row.least_ms / 1000, row.most_ms / 1000, (row.planned_ms or 0) / 1000
    if least_s != most_s:
        return [f"step {row.step}: cut off, {least_s:.2f} to {most_s:.2f} s of light given"]
    if planned_s and abs(least_s - planned_s) > max(0.02, planned_s / 100):
        parts = f" in {len(row.parts)} parts" if len(row.parts) > 1 else ""
        return [f"step {row.step}: {least_s:.2f} s given{parts}, {planned_s:.2f} s planned"]
    return []
