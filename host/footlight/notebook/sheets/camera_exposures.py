"""The camera's part of a sheet's life: what was planned, what was given, and with what."""

import math
import sqlite3
from dataclasses import astuple, dataclass, fields, replace

from footlight.notebook.acts import standing
from footlight.quantities.duration import format_seconds
from footlight.quantities.signs import signed_stops


@dataclass(frozen=True)
class CameraExposure:
    """A sheet in the camera. `holder`: number and side; times in s; `arithmetic`: how the planned time came
    about, a line each. Words are '' and numbers None where not known."""

    holder: str = ""
    planned_s: float | None = None
    given_s: float | None = None
    lens: str = ""
    stop: str = ""
    exposure_index: float | None = None
    subject: str = ""
    light: str = ""
    filter: str = ""
    arithmetic: str = ""
    at_unix_s: int | None = None

    @property
    def times_text(self) -> str:
        """Planned against given, in a line; '' when neither is known."""
        if self.planned_s is None and self.given_s is None:
            return ""
        planned = f"planned {format_seconds(self.planned_s)}" if self.planned_s else "not planned"
        if self.given_s is None:
            return f"{planned}, not yet written what was given"
        stops = math.log2(self.given_s / self.planned_s) if self.planned_s else 0.0
        off = f": {signed_stops(stops)}" if abs(stops) >= 0.005 else ""
        return f"{planned}, given {format_seconds(self.given_s)}{off}"

    def for_another_sheet(self) -> "CameraExposure":
        """The same again: what belongs to the one sheet alone (holder, time given, moment) is left out."""
        return replace(self, holder="", given_s=None, at_unix_s=None)


_COLUMNS = [field.name for field in fields(CameraExposure)]
_EXPOSURE = f"SELECT {', '.join(_COLUMNS)} FROM camera_exposures {standing('camera_exposures')}"


def put(connection: sqlite3.Connection, act_id: int, sheet_id: int, exposure: CameraExposure) -> None:
    """Within an act: this is what the sheet got in the camera; it replaces what was written before."""
    marks = ", ".join("?" for _ in _COLUMNS)
    connection.execute(
        f"INSERT INTO camera_exposures (act_id, sheet_id, {', '.join(_COLUMNS)}) VALUES (?, ?, {marks})",
        (act_id, sheet_id, *astuple(exposure)),
    )


def of_sheet(connection: sqlite3.Connection, sheet_id: int) -> CameraExposure | None:
    """What stands about a sheet; None if nothing."""
    row = connection.execute(
        f"{_EXPOSURE} WHERE sheet_id = ? ORDER BY camera_exposures.id DESC LIMIT 1", (sheet_id,)
    ).fetchone()
    return CameraExposure(*row) if row else None


def last(connection: sqlite3.Connection) -> tuple[int, CameraExposure] | None:
    """The exposure that was written last, of whatever sheet, with its number."""
    row = connection.execute(
        f"SELECT sheets.number, {', '.join(_COLUMNS)} FROM camera_exposures"
        f" {standing('camera_exposures')} JOIN sheets ON sheets.id = sheet_id"
        " ORDER BY camera_exposures.id DESC LIMIT 1"
    ).fetchone()
    return (row[0], CameraExposure(*list(row)[1:])) if row else None
