"""The rest of a sheet's life, beside its runs: paper, camera, baths, readings, pictures, what was written.

Readings and baths belong to other parts of the program; here they are only looked up.
"""

import sqlite3
from dataclasses import dataclass

from footlight.notebook.acts import standing
from footlight.notebook.sheets import camera_exposures, pictures, remarks
from footlight.notebook.sheets.by_number import BathRow, RunPart, Story
from footlight.notebook.sheets.camera_exposures import CameraExposure
from footlight.notebook.sheets.pictures import Kept
from footlight.notebook.sheets.remarks import Remark
from footlight.notebook.sheets.wet import in_a_tray
from footlight.notebook.stock import baths, papers
from footlight.notebook.stock.baths import Bath
from footlight.notebook.stock.papers import Batch


@dataclass(frozen=True)
class StoodIn:
    """A bath that stood in its tray at a run. `age_s`: in the open tray until then [s].

    `findings`: kind -> the last value before the run, of clearing time [s] and temperature [°C].
    """

    run: int
    name: str
    made_from: str
    age_s: int
    findings: dict[str, float]


@dataclass(frozen=True)
class Read:
    """A reading of the sheet: a strip or a print. Densities in D; `dose_s`: advised [s of light]."""

    id: int
    kind: str
    setup: str
    scan: str
    d_max: float | None
    veil_d: float | None
    mottle_d: float | None
    dose_s: float | None
    read_unix_s: int


@dataclass(frozen=True)
class Life:
    """All of it; what is not known is None or empty."""

    paper: Batch | None
    camera: CameraExposure | None
    baths: list[StoodIn]
    readings: list[Read]
    pictures: list[Kept]
    written: list[Remark]


def of_sheet(connection: sqlite3.Connection, story: Story) -> Life:
    """Everything that stands about a sheet beside its story."""
    sheet_id = story.sheet_id
    return Life(
        papers.of_sheet(connection, sheet_id),
        camera_exposures.of_sheet(connection, sheet_id),
        _baths(connection, story),
        _readings(connection, sheet_id),
        pictures.of_sheet(connection, sheet_id),
        remarks.of_sheet(connection, sheet_id),
    )


def _readings(connection: sqlite3.Connection, sheet_id: int) -> list[Read]:
    rows = connection.execute(
        "SELECT readings.id, kind, setup, scan, d_max, veil_d, mottle_d, dose_s, acts.done_unix_s"
        f" FROM readings {standing('readings')} WHERE sheet_id = ? ORDER BY readings.id",
        (sheet_id,),
    ).fetchall()
    return [Read(*row) for row in rows]


def _baths(connection: sqlite3.Connection, story: Story) -> list[StoodIn]:
    """Of each wet run with a date, what stood in the trays when it began."""
    wet = [part for part in story.runs if _is_wet(part) and part.when.from_unix_s == part.when.to_unix_s]
    known = baths.every(connection) if wet else []
    return [
        _stood(bath, part.run, at_s)
        for part in wet
        if (at_s := part.when.from_unix_s) is not None
        for bath in known
        if baths.in_tray(bath, at_s, at_s)
    ]


def _is_wet(part: RunPart) -> bool:
    return in_a_tray([row.in_tray for row in part.rows if isinstance(row, BathRow)], part.sheets)


def _stood(bath: Bath, run: int, at_unix_s: int) -> StoodIn:
    findings = {
        one.kind: one.value
        for one in bath.findings
        if one.kind in ("clearing", "temperature") and one.at_unix_s <= at_unix_s and one.value is not None
    }
    return StoodIn(run, bath.name, bath.made_from, round(bath.age_h(at_unix_s) * 3600), findings)
