"""Pictures of sheets, kept in the notebook itself so that a back-up has them too."""

import sqlite3
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from footlight import errors
from footlight.notebook.acts import act, standing
from footlight.notebook.errors import NotebookError
from footlight.notebook.sheets.small_picture import MEDIA, small


@dataclass(frozen=True)
class Kept:
    """A picture in the notebook, without its data. `name`: of the file that it came from."""

    id: int
    name: str
    media: str
    bytes: int
    sha256: str
    attached_unix_s: int


@dataclass(frozen=True)
class Made:
    """A picture made small, not yet kept."""

    name: str
    data: bytes

    @property
    def sha256(self) -> str:
        """What tells it from others."""
        # Here alone: to show a sheet needs it not.
        import hashlib

        return hashlib.sha256(self.data).hexdigest()


def make(path: Path) -> Made:
    """A picture out of a file. Raises InputError for what is none."""
    return Made(path.name, small(path))


def put(connection: sqlite3.Connection, act_id: int, sheet_id: int, made: Made) -> None:
    """Within an act: a picture of a sheet."""
    connection.execute(
        "INSERT INTO pictures (act_id, sheet_id, name, media, sha256, data) VALUES (?, ?, ?, ?, ?, ?)",
        (act_id, sheet_id, made.name, MEDIA, made.sha256, made.data),
    )


def without_kept(connection: sqlite3.Connection, sheet_id: int, made: Sequence[Made]) -> tuple[Made, ...]:
    """Those that the sheet does not have yet: the same file attached twice is one picture."""
    kept = {picture.sha256 for picture in of_sheet(connection, sheet_id)} if made else set()
    return tuple({picture.sha256: picture for picture in made if picture.sha256 not in kept}.values())


def attach(connection: sqlite3.Connection, sheet: sqlite3.Row, made: Sequence[Made], now_s: int) -> None:
    """Keep pictures of a sheet, as `sheets.find` gave it, all or none."""
    names = ", ".join(picture.name for picture in made)
    with act(connection, f"sheet {sheet['number']}: picture {names}", now_s) as act_id:
        for picture in made:
            put(connection, act_id, sheet["id"], picture)


def of_sheet(connection: sqlite3.Connection, sheet_id: int) -> list[Kept]:
    """A sheet's pictures in the order of attaching; what a reading drew of it is with the reading."""
    rows = connection.execute(
        "SELECT pictures.id, name, media, length(data), sha256, acts.done_unix_s FROM pictures"
        f" {standing('pictures')} WHERE sheet_id = ? AND reading_id IS NULL ORDER BY pictures.id",
        (sheet_id,),
    ).fetchall()
    return [Kept(*row) for row in rows]


def data_of(connection: sqlite3.Connection, sheet: sqlite3.Row, which: int | None) -> bytes:
    """The data of a sheet's picture, counted from 1; the last without a count. Raises NotebookError."""
    kept = of_sheet(connection, sheet["id"])
    if not kept:
        raise NotebookError(f"sheet {sheet['number']}: no picture; {errors.act('attach')} keeps one")
    if which is not None and which > len(kept):
        raise NotebookError(f"sheet {sheet['number']}: picture {which}, but there are {len(kept)}")
    chosen = kept[which - 1] if which else kept[-1]
    return connection.execute("SELECT data FROM pictures WHERE id = ?", (chosen.id,)).fetchone()["data"]
