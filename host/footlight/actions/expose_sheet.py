"""What `footlight expose` enters: what was written, over what is known already, in one act."""

import sqlite3
from dataclasses import dataclass, replace
from pathlib import Path

from footlight import quantities as q
from footlight.cli.camera.written import index
from footlight.cli.camera_lines import times
from footlight.cli.exposing import Metered, camera_file, planned
from footlight.errors import InputError
from footlight.notebook.acts import act
from footlight.notebook.dates import When
from footlight.notebook.errors import NotebookError
from footlight.notebook.sheets import by_number, camera_exposures, early
from footlight.notebook.sheets import wet as wet_runs
from footlight.notebook.sheets.camera_exposures import CameraExposure
from footlight.notebook.stock import papers
from footlight.notebook.stock.papers import Batch
from footlight.views.times import date_text

_ALONE = "--meter, --planned: give a reading to reckon from, or the time itself, not both"


@dataclass(frozen=True)
class Written:
    """The options of `footlight expose`, as written; None where left out."""

    meter: str | None = None
    planned: str | None = None
    given: str | None = None
    stop: str | None = None
    lens: str | None = None
    draw: str | None = None
    image: str | None = None
    object_: str | None = None
    ei: str | None = None
    p: str | None = None
    holder: str | None = None
    subject: str | None = None
    light: str | None = None
    filter: str | None = None
    paper: str | None = None
    at: str | None = None
    again: bool = False
    as_sheet: int | None = None
    new: bool = False
    camera_file: Path | None = None
    controller: str | None = None


@dataclass(frozen=True)
class Entered:
    """What was entered. `waiting`: no journal knows the sheet yet; `printed`: it has had a wet run."""

    exposure: CameraExposure
    paper: Batch | None
    paper_filled_in: bool
    waiting: bool
    printed: bool


def enter(connection: sqlite3.Connection, number: int, written: Written, now_s: int) -> Entered:
    """Enter it, all or nothing. Raises InputError and NotebookError; then nothing was entered."""
    sheet = early.look(connection, number, written.controller, new=written.new)
    own = papers.of_sheet(connection, sheet["id"]) if sheet else None
    batch = papers.find(connection, written.paper) if written.paper else own or papers.in_use(connection)
    if written == Written(paper=written.paper, new=written.new, controller=written.controller):
        raise InputError(f"sheet {number}: nothing to write; 'footlight expose --help' shows what there is")
    exposure = _over(connection, written, _base(connection, sheet, written), batch, now_s)
    wet = wet_runs.first_wet_run(connection, sheet["id"]) if sheet else None
    if wet and written.at:
        _refuse_after_bath(number, exposure, wet)
    said = "; ".join([f"sheet {number} in the camera", *filter(None, (exposure.subject, *times(exposure)))])
    with act(connection, said, now_s) as act_id:
        sheet_id = sheet["id"] if sheet else early.begin(connection, number, written.controller, act_id)
        camera_exposures.put(connection, act_id, sheet_id, exposure)
        changed = batch is not None and (own is None or own.id != batch.id)
        if batch and changed:
            papers.put(connection, act_id, [sheet_id], batch)
    waiting = sheet is None or sheet["epoch_id"] is None
    return Entered(exposure, batch, changed and not written.paper, waiting, printed=wet is not None)


def _refuse_after_bath(number: int, exposure: CameraExposure, wet: When) -> None:
    """Raise InputError for a moment at which the sheet had surely been in a bath."""
    if wet.to_unix_s is not None and exposure.at_unix_s is not None and exposure.at_unix_s > wet.to_unix_s:
        raise InputError(
            f"--at: sheet {number} went into its first bath on {date_text(wet.to_unix_s)} at the latest, and "
            "no camera exposes it after that; if another sheet of this number is meant, add --new"
        )


def _base(connection: sqlite3.Connection, sheet: sqlite3.Row | None, written: Written) -> CameraExposure:
    """What stands where nothing new is written: another sheet's entry if so wished, else the sheet's own."""
    if written.again and written.as_sheet:
        raise InputError("--again, --as: one sheet to copy from, not two")
    if written.again:
        former = camera_exposures.last(connection)
        if former is None:
            raise NotebookError("--again: no camera exposure was written down yet")
        return former[1].for_another_sheet()
    if written.as_sheet:
        other = by_number.find(connection, written.as_sheet, written.controller)
        exposure = camera_exposures.of_sheet(connection, other["id"])
        if exposure is None:
            raise NotebookError(f"--as {written.as_sheet}: nothing was written of it in the camera")
        return exposure.for_another_sheet()
    known = camera_exposures.of_sheet(connection, sheet["id"]) if sheet else None
    return known or CameraExposure()


def _over(
    connection: sqlite3.Connection, written: Written, base: CameraExposure, batch: Batch | None, now_s: int
) -> CameraExposure:
    words = ("holder", "lens", "subject", "light", "filter")
    exposure = replace(base, **{key: value for key in words if (value := getattr(written, key)) is not None})
    if written.stop is not None:
        exposure = replace(exposure, stop=str(q.parse_stop(written.stop, "--stop")))
    if written.given is not None:
        exposure = replace(exposure, given_s=_seconds(written.given, "--given"))
    if written.at is not None:
        exposure = replace(exposure, at_unix_s=q.parse_moment(written.at, "--at", now_s))
    found = index(written.ei, "--ei") if written.ei else exposure.exposure_index or (batch and batch.speed)
    return _with_time(connection, written, replace(exposure, exposure_index=found))


def _with_time(connection: sqlite3.Connection, written: Written, exposure: CameraExposure) -> CameraExposure:
    if written.meter and written.planned:
        raise InputError(_ALONE)
    if written.planned:
        return replace(exposure, planned_s=_seconds(written.planned, "--planned"), arithmetic="")
    if not written.meter:
        return exposure
    if not exposure.stop:
        raise InputError("--stop is missing: the stop that the time is for, '--stop f/22'")
    if not exposure.exposure_index:
        raise InputError(
            "--ei is missing, and no index was found for the paper: '--ei 4', or 'footlight paper found'"
        )
    seconds, arithmetic = planned(connection, _metered(written, exposure))
    return replace(exposure, planned_s=round(seconds, 4), arithmetic=arithmetic)


def _metered(written: Written, exposure: CameraExposure) -> Metered:
    return Metered(
        reading=written.meter or "",
        stop=exposure.stop,
        index=exposure.exposure_index or 0,
        lens=exposure.lens,
        draw=written.draw,
        image=written.image,
        subject=written.object_,
        light=exposure.light,
        filter=exposure.filter,
        p=written.p,
        settings=camera_file(written.camera_file),
    )


def _seconds(text: str, what: str) -> float:
    seconds = q.parse_seconds(text, what)
    if seconds <= 0:
        raise InputError(f"{what}: '{text}' must be more than zero, for example '3.5 s'")
    return seconds
