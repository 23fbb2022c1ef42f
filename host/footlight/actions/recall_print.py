"""All that is known of one print, as `beside` and the print report want it."""

import sqlite3
from dataclasses import dataclass

from footlight import sequence
from footlight.errors import InputError
from footlight.light.setup import Arrangement
from footlight.notebook.journal import programs
from footlight.notebook.sheets import by_number, camera_exposures, remarks
from footlight.notebook.sheets.by_number import RunPart, Story
from footlight.notebook.sheets.camera_exposures import CameraExposure
from footlight.notebook.sheets.remarks import Remark
from footlight.notebook.stock import baths, papers, since
from footlight.notebook.stock.baths import Bath
from footlight.notebook.stock.papers import Batch
from footlight.sequence.model import Light


@dataclass(frozen=True)
class TrayBath:
    """What stood in a tray when the print went through. age_h: hours in the tray [h]."""

    tray: str
    bath: Bath
    age_h: float


@dataclass(frozen=True)
class Side:
    """A print. arrangements: (run, step) -> lamp, lens, stop and height of a light, as far as they were
    kept. baths: in the order of the trays of its last run. setups: names of its light setups."""

    story: Story
    paper: Batch | None
    camera: CameraExposure | None
    baths: tuple[TrayBath, ...]
    written: tuple[Remark, ...]
    arrangements: dict[tuple[int, int], Arrangement]
    setups: tuple[str, ...] = ()


def of(connection: sqlite3.Connection, number: int, controller: str | None = None) -> Side:
    """What the notebook knows of a sheet. Raises NotebookError where it knows none of that number."""
    story = by_number.story(connection, by_number.find(connection, number, controller))
    kept = {part.run: found for part in story.runs if (found := _kept(connection, part))}
    return Side(
        story=story,
        paper=papers.of_sheet(connection, story.sheet_id),
        camera=camera_exposures.of_sheet(connection, story.sheet_id),
        baths=tuple(_baths(connection, story, kept)),
        written=tuple(remarks.of_sheet(connection, story.sheet_id)),
        arrangements=_arrangements(kept),
        setups=tuple(setup.name for found in kept.values() for setup in found.setups_used),
    )


def _kept(connection: sqlite3.Connection, part: RunPart) -> sequence.Sequence | None:
    """The sequence of a run with its light setups; None where they were not kept."""
    found = programs.files(connection, part.sha)
    if found is None:
        return None
    try:
        return sequence.load_kept(*found, f"run {part.run}")
    except InputError:
        return None  # kept by a version that read such files otherwise: the journal still tells the times


def _arrangements(kept: dict[int, sequence.Sequence]) -> dict[tuple[int, int], Arrangement]:
    return {
        (run, step.number): step.placed.setup.here
        for run, found in kept.items()
        for step in found.steps
        if isinstance(step, Light)
    }


def _baths(
    connection: sqlite3.Connection, story: Story, kept: dict[int, sequence.Sequence]
) -> list[TrayBath]:
    known = baths.every(connection)
    if not known:
        return []
    found = {}
    for part in story.runs:
        at_s = part.when.to_unix_s
        if at_s is None or part.run not in kept:
            continue
        for tray in kept[part.run].trays:
            bath = since.bath_at(known, tray.name, at_s)
            if bath is not None:
                found[tray.name] = TrayBath(tray.name, bath, bath.age_h(at_s))
    return list(found.values())
