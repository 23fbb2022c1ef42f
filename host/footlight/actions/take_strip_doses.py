"""The light that a strip was really given, from the notebook: journal, sequence and light setups together."""

import math
import sqlite3
from dataclasses import dataclass
from pathlib import Path

from footlight import quantities as q
from footlight.cli.read import circumstances
from footlight.errors import InputError
from footlight.light.strip.plan import Manner
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
class Wanted:
    """What the printer said. number: of the sheet. run, present, manner, setups: where the usual is wrong."""

    number: int
    controller: str | None = None
    run: int | None = None
    manner: Manner = "covered"
    present: str | None = None
    setups: Path = Path("light-setups.toml")


@dataclass(frozen=True)
class Given:
    """What was given. totals_s: of every band, zero first, the middle of its bounds [s]."""

    sheet_id: int
    present_s: float
    taken: Taken

    @property
    def totals_s(self) -> tuple[float, ...]:
        return tuple(math.sqrt(a * b) for a, b in zip(self.taken.least_s, self.taken.most_s, strict=True))

    @property
    def is_hidden(self) -> bool:
        """Is some light known only between bounds?"""
        return self.taken.least_s != self.taken.most_s


@dataclass(frozen=True)
class _Found:
    """A run of a sheet that made a strip, with its sequence as it was sent."""

    part: RunPart
    sent: readings.Sent
    strip: StripLights


def of_sheet(connection: sqlite3.Connection, wanted: Wanted) -> Given:
    """The doses of a strip. Raises FootlightError, one line, for what the notebook cannot tell."""
    story = by_number.story(connection, by_number.find(connection, wanted.number, wanted.controller))
    found = _strip_of(connection, story, wanted)
    bands = _bands(found, wanted.number)
    kept, merged = _merged(bands)
    first = found.strip.lights[0]
    place, source = _placed(found, first, wanted)
    present_s, present_said = _present(place, source, wanted, kept[len(kept) // 2][1])
    said = (*_said(found, wanted), *merged, *present_said)
    taken = Taken(
        sheet=wanted.number,
        run=found.part.run,
        first_step=first.step,
        setup=first.setup,
        place=str(place.setup.here) if place else "",
        least_s=tuple(round(least, 4) for least, _ in kept),
        most_s=tuple(round(most, 4) for _, most in kept),
        said=said,
        run_words=circumstances.lines(connection, story, found.part, found.sent.source, first.step),
    )
    return Given(story.sheet_id, present_s, taken)


def _strip_of(connection: sqlite3.Connection, story: Story, wanted: Wanted) -> _Found:
    """The last run of the sheet that lit a strip, or the run that was asked for."""
    for part in reversed(story.runs):
        sent = readings.as_sent(connection, part.sha)
        if sent is None or wanted.run not in (None, part.run):
            continue
        lit = {row.step for row in part.rows if isinstance(row, LightRow) and row.most_ms}
        strips = [
            strip
            for strip in strip_lights(sent.source, wanted.manner)
            if len(lit & {light.step for light in strip.lights}) > 1
        ]
        if strips:
            return _Found(part, sent, strips[-1])
    run = "" if wanted.run is None else f", run {wanted.run}"
    raise InputError(
        f"sheet {wanted.number}{run}: no strip of three lights or more is in the notebook with the sequence"
        " that gave it; bring the journal home with 'footlight collect', or give --doses and --present"
    )


def _bands(found: _Found, number: int) -> list[tuple[float, float]]:
    """(least, most) of each band [s]; the same light begun twice counts twice."""
    rows = [row for row in found.part.rows if isinstance(row, LightRow)]
    bands = []
    for band in range(found.strip.bands):
        reached = {light.step for light in found.strip.lights if light.first <= band <= light.last}
        lights = [row for row in rows if row.step in reached]
        least, most = (sum(getattr(row, f"{end}_ms") for row in lights) / 1000 for end in ("least", "most"))
        if most and (not least or math.log2(most / least) > _MOST_HIDDEN_STOPS):
            raise InputError(
                f"sheet {number}, band {band}: after the power cut its light is known only between"
                f" {least:.2f} and {most:.2f} s, too far apart to read by; give --doses if you know better"
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
                " of the bands does not rise; say how they were lit (--manner), or give --doses"
            )
        else:
            kept.append((least, most))
    return kept, tuple(said)


def _placed(found: _Found, light: StripLight, wanted: Wanted) -> tuple[PlacedSetup | None, str]:
    """The light setup where the strip stood, and where it was read."""
    setups, source = _setups(found.sent, wanted)
    if setups is None:
        return None, ""
    placed = setups.get(light.setup, f"step {light.step}: setup")
    height = q.parse_length_mm(light.height, "height") if light.height else None
    stop = q.parse_stop(light.stop, "stop") if light.stop else None
    return at_step(placed, height, stop, f"step {light.step}"), source


def _setups(sent: readings.Sent, wanted: Wanted) -> tuple[Setups | None, str]:
    if sent.setups:
        return setups_from_text(sent.setups, "light setups as sent"), "as it was sent"
    if wanted.setups.is_file():
        return load_setups(wanted.setups), f"as {wanted.setups.name} has it now"
    return None, ""


def _present(
    placed: PlacedSetup | None, source: str, wanted: Wanted, middle_s: float
) -> tuple[float, tuple[str, ...]]:
    """The present dose at the strip's place [s]."""
    if wanted.present is not None:
        return q.parse_seconds(wanted.present, "--present", least_s=0.01), ("present dose as typed",)
    if placed is None or placed.setup.reference is None:
        why = "its light setups were not kept" if placed is None else f"'{placed.name}' has no reference yet"
        return middle_s, (f"stops are counted from the middle step, {q.format_seconds(middle_s)}: {why}",)
    from footlight.light.exposure import for_setup

    seconds = for_setup(placed.setup).seconds
    dose = f"present dose {q.format_seconds(seconds)} at {placed.setup.here}"
    return seconds, (f"{dose}, light setup '{placed.name}' {source}",)


def _said(found: _Found, wanted: Wanted) -> tuple[str, ...]:
    steps = [light.step for light in found.strip.lights]
    how = (
        "their notes"
        if found.strip.as_noted
        else f"the manner '{wanted.manner}', since their notes do not say"
    )
    said = [
        f"light of each step as given, from the journal: sheet {wanted.number}, run {found.part.run},"
        f" steps {steps[0]} to {steps[-1]}; which bands they reached from {how}"
    ]
    for row in found.part.rows:
        if isinstance(row, LightRow) and row.step in steps:
            said += _departure(row)
    return tuple(said)


def _departure(row: LightRow) -> list[str]:
    """What was given otherwise than planned."""
    least_s, most_s, planned_s = row.least_ms / 1000, row.most_ms / 1000, (row.planned_ms or 0) / 1000
    if least_s != most_s:
        return [f"step {row.step}: cut off, {least_s:.2f} to {most_s:.2f} s of light given"]
    if planned_s and abs(least_s - planned_s) > max(0.02, planned_s / 100):
        parts = f" in {len(row.parts)} parts" if len(row.parts) > 1 else ""
        return [f"step {row.step}: {least_s:.2f} s given{parts}, {planned_s:.2f} s planned"]
    return []
