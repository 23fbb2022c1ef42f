"""A sheet was exposed in the camera: what is said of it, over what is known already, in one act."""

import sqlite3
from dataclasses import dataclass, replace
from pathlib import Path

from footlight.actions.plan_camera import Metered, plan_camera
from footlight.camera.meter import Scene
from footlight.camera.settings import Settings
from footlight.errors import InputError, act, field
from footlight.notebook import acts
from footlight.notebook.book import notebook
from footlight.notebook.dates import When, date_text
from footlight.notebook.errors import NotebookError
from footlight.notebook.sheets import by_number, camera_exposures, early
from footlight.notebook.sheets import wet as wet_runs
from footlight.notebook.sheets.camera_exposures import CameraExposure
from footlight.notebook.stock import papers
from footlight.notebook.stock.papers import Batch
from footlight.quantities import FStop, parse_stop


@dataclass(frozen=True)
class InCamera:
    """What is said of a sheet in the camera; None where nothing is.

    reading: to reckon the planned time from. planned_s, given_s [s]. lens: a name, or a focal length as
    written. draw_mm, image_mm, object_mm [mm]. index: exposure index. p: exponent of long exposures. paper:
    name of its batch. at_unix_s: when [s since 1970]. again, as_sheet: the rest as for the sheet written down
    last, or that one. new: another sheet than the one of its number that is known. correct: over what was
    written before. settings: the camera file.
    """

    reading: Scene | None = None
    planned_s: float | None = None
    given_s: float | None = None
    stop: FStop | None = None
    lens: str | None = None
    draw_mm: float | None = None
    image_mm: float | None = None
    object_mm: float | None = None
    index: float | None = None
    p: float | None = None
    holder: str | None = None
    subject: str | None = None
    light: str | None = None
    filter: str | None = None
    paper: str | None = None
    at_unix_s: int | None = None
    again: bool = False
    as_sheet: int | None = None
    new: bool = False
    correct: bool = False
    settings: Settings | None = None
    controller: str | None = None


@dataclass(frozen=True)
class Exposed:
    """What was written. waiting: no journal knows the sheet yet; printed: it has had a wet run.

    paper_filled_in: its batch was not said, and is the one in use.
    """

    exposure: CameraExposure
    paper: Batch | None
    paper_filled_in: bool
    waiting: bool
    printed: bool


def expose_sheet(book: Path, number: int, said: InCamera, now_s: int) -> Exposed:
    """Write it down, all or nothing. Raises InputError and NotebookError; then nothing was written."""
    with notebook(book, writing=True) as connection:
        return _exposed(connection, number, said, now_s)


def _exposed(connection: sqlite3.Connection, number: int, said: InCamera, now_s: int) -> Exposed:
    sheet = early.look(connection, number, said.controller, new=said.new)
    own = papers.of_sheet(connection, sheet["id"]) if sheet else None
    batch = papers.find(connection, said.paper) if said.paper else own or papers.in_use(connection)
    nothing = InCamera(paper=said.paper, new=said.new, correct=said.correct, controller=said.controller)
    if said == nothing:
        raise InputError(f"sheet {number}: nothing to write; give a time, a reading, a subject or a holder")
    base = _base(connection, sheet, said)
    if sheet and not said.correct:
        _refuse_second(number, said, camera_exposures.of_sheet(connection, sheet["id"]))
    exposure = _over(connection, said, base, batch)
    wet = wet_runs.first_wet_run(connection, sheet["id"]) if sheet else None
    if wet and said.at_unix_s is not None:
        _refuse_after_bath(number, said.at_unix_s, wet)
    with acts.act(connection, _said(number, exposure), now_s) as act_id:
        sheet_id = sheet["id"] if sheet else early.begin(connection, number, said.controller, act_id)
        camera_exposures.put(connection, act_id, sheet_id, exposure)
        changed = batch is not None and (own is None or own.id != batch.id)
        if batch and changed:
            papers.put(connection, act_id, [sheet_id], batch)
    waiting = sheet is None or sheet["epoch_id"] is None
    return Exposed(exposure, batch, changed and not said.paper, waiting, printed=wet is not None)


def _refuse_second(number: int, said: InCamera, known: CameraExposure | None) -> None:
    """Raise InputError where the sheet has that already: a second exposure on it would be a mistake."""
    if known is None:
        return
    plans = said.reading is not None or said.planned_s is not None or said.again or said.as_sheet
    if (plans and known.planned_s) or (said.given_s is not None and known.given_s):
        raise InputError(
            f"sheet {number}: it was in the camera already ({known.times_text}); add {field('correct')} to"
            f" write over that, or {field('new')} if it is another sheet of this number"
        )


def _said(number: int, exposure: CameraExposure) -> str:
    parts = (f"sheet {number} in the camera", exposure.subject, exposure.times_text)
    return "; ".join(filter(None, parts))


def _refuse_after_bath(number: int, at_unix_s: int, wet: When) -> None:
    """Raise InputError for a moment at which the sheet had surely been in a bath."""
    if wet.to_unix_s is not None and at_unix_s > wet.to_unix_s:
        raise InputError(
            f"{field('at')}: sheet {number} went into its first bath on {date_text(wet.to_unix_s)} at the"
            f" latest, and no camera exposes it after that; if another sheet of this number is meant, add"
            f" {field('new')}"
        )


def _base(connection: sqlite3.Connection, sheet: sqlite3.Row | None, said: InCamera) -> CameraExposure:
    """What stands where nothing new is said: another sheet's entry if so wished, else the sheet's own."""
    again, as_sheet = field("again"), field("as_sheet")
    if said.again and said.as_sheet:
        raise InputError(f"{again}, {as_sheet}: one sheet to copy from, not two")
    if said.again:
        former = camera_exposures.last(connection)
        if former is None:
            raise NotebookError(f"{again}: no camera exposure was written down yet")
        return former[1].for_another_sheet()
    if said.as_sheet:
        other = by_number.find(connection, said.as_sheet, said.controller)
        exposure = camera_exposures.of_sheet(connection, other["id"])
        if exposure is None:
            raise NotebookError(f"{as_sheet} {said.as_sheet}: nothing was written of it in the camera")
        return exposure.for_another_sheet()
    known = camera_exposures.of_sheet(connection, sheet["id"]) if sheet else None
    return known or CameraExposure()


def _over(
    connection: sqlite3.Connection, said: InCamera, base: CameraExposure, batch: Batch | None
) -> CameraExposure:
    """What is said, laid over the base; the paper's own index where neither has one."""
    for name, seconds in (("planned", said.planned_s), ("given", said.given_s)):
        if seconds is not None and seconds <= 0:
            raise InputError(f"{field(name)}: {seconds:g} s must be more than zero, for example '3.5 s'")
    new = {
        "holder": said.holder,
        "lens": said.lens,
        "stop": None if said.stop is None else f"{said.stop}",
        "given_s": said.given_s,
        "at_unix_s": said.at_unix_s,
        "subject": said.subject,
        "light": said.light,
        "filter": said.filter,
        "exposure_index": said.index or base.exposure_index or (batch and batch.speed),
    }
    exposure = replace(base, **{key: value for key, value in new.items() if value is not None})
    return _with_time(connection, said, exposure)


def _with_time(connection: sqlite3.Connection, said: InCamera, exposure: CameraExposure) -> CameraExposure:
    if said.reading and said.planned_s is not None:
        raise InputError(
            f"{field('meter')}, {field('planned')}: give a reading to reckon from, or the time itself,"
            " not both"
        )
    if said.planned_s is not None:
        return replace(exposure, planned_s=said.planned_s, arithmetic="")
    if not said.reading:
        return exposure
    seconds, arithmetic = plan_camera(connection, _metered(said, said.reading, exposure))
    return replace(exposure, planned_s=round(seconds, 4), arithmetic=arithmetic)


def _metered(said: InCamera, reading: Scene, exposure: CameraExposure) -> Metered:
    stop, index = field("stop"), field("ei")
    if not exposure.stop:
        raise InputError(f"{stop} is missing: the stop that the time is for, '{stop} f/22'")
    if not exposure.exposure_index:
        raise InputError(
            f"{index} is missing, and no index was found for the paper: '{index} 4', or {act('paper found')}"
        )
    return Metered(
        reading=reading,
        stop=said.stop or parse_stop(exposure.stop, stop),
        index=exposure.exposure_index,
        lens=exposure.lens,
        draw_mm=said.draw_mm,
        image_mm=said.image_mm,
        object_mm=said.object_mm,
        light=exposure.light,
        filter=exposure.filter,
        p=said.p,
        settings=said.settings,
    )
