"""All that is known of one print: to lay it beside another, or to report it."""

import sqlite3
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from footlight import sequence
from footlight.errors import InputError
from footlight.light.setup import Arrangement
from footlight.notebook.book import notebook
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
class Print:
    """A print. arrangements: (run, step) -> lamp, lens, stop and height of a light, as far as they were
    kept. baths: in the order of the trays of its last run. setups: names of its light setups."""

    story: Story
    paper: Batch | None
    camera: CameraExposure | None
    baths: tuple[TrayBath, ...]
    written: tuple[Remark, ...]
    arrangements: dict[tuple[int, int], Arrangement]
    setups: tuple[str, ...] = ()


def recall_prints(book: Path, numbers: Sequence[int], controller: str | None = None) -> list[Print]:
    """What the notebook knows of prints, in the order asked for. controller: whose, where several have one of
    a number. Raises NotebookError where it knows none of a number."""
    with notebook(book, writing=False) as connection:
        return [recall_print(connection, number, controller) for number in numbers]


def recall_print(connection: sqlite3.Connection, number: int, controller: str | None = None) -> Print:
    """What the notebook knows of one print. Raises NotebookError where it knows none of that number."""
    story = by_number.story(connection, by_number.find(connection, number, controller))
    kept = {part.run: files for part in story.runs if (files := _kept(connection, part))}
    return Print(
        story=story,
        paper=papers.of_sheet(connection, story.sheet_id),
        camera=camera_exposures.of_sheet(connection, story.sheet_id),
        baths=tuple(_baths(connection, story, kept)),
        written=tuple(remarks.of_sheet(connection, story.sheet_id)),
        arrangements=_arrangements(kept),
        setups=tuple(setup.name for files in kept.values() for setup in files.setups_used),
    )


def _kept(connection: sqlite3.Connection, part: RunPart) -> sequence.Sequence | None:
    """The sequence of a run with its light setups; None where they were not kept."""
    files = programs.files(connection, part.sha)
    if files is None:
        return None
    try:
        return sequence.load_kept(*files, f"run {part.run}")
    except InputError:
        return None  # kept by a version that read such files otherwise: the journal still tells the times


def _arrangements(kept: dict[int, sequence.Sequence]) -> dict[tuple[int, int], Arrangement]:
    return {
        (run, step.number): step.placed.setup.here
        for run, files in kept.items()
        for step in files.steps
        if isinstance(step, Light)
    }


def _baths(
    connection: sqlite3.Connection, story: Story, kept: dict[int, sequence.Sequence]
) -> list[TrayBath]:
    known = baths.every(connection)
    if not known:
        return []
    standing = {}
    for part in story.runs:
        at_s = part.when.to_unix_s
        if at_s is None or part.run not in kept:
            continue
        for tray in kept[part.run].trays:
            bath = since.bath_at(known, tray.name, at_s)
            if bath is not None:
                standing[tray.name] = TrayBath(tray.name, bath, bath.age_h(at_s))
    return list(standing.values())
