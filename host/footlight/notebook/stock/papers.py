"""Papers: batches as they were bought, what was found out about them, and which sheet is of which.

A batch is in use for its size once it was said so (`paper use`) or a sheet was given to it, whichever came
last; sheets that come home are taken to be of it until told otherwise.
"""

import sqlite3
from collections.abc import Iterable, Sequence
from dataclasses import astuple, dataclass

from footlight import errors
from footlight.errors import InputError
from footlight.notebook.acts import act, standing
from footlight.notebook.errors import NotebookError
from footlight.quantities.sheet import parse_sheet
from footlight.quantities.table import suggestion

Sides = tuple[int, int]


@dataclass(frozen=True)
class Finding:
    """Something found out about a batch. `value`: index, stops or sheets, by `kind`; `setup`: the light setup
    that it is for; `text`: in words."""

    kind: str
    value: float | None = None
    setup: str = ""
    text: str = ""


@dataclass(frozen=True)
class Dated(Finding):
    """A finding, and when it was written down."""

    found_unix_s: int = 0


@dataclass(frozen=True)
class Batch:
    """A batch of paper and how many of its sheets are gone. `speed`: exposure index; None: not found yet."""

    id: int
    name: str
    paper: str
    size: str
    bought: int
    used: int
    spoiled: int
    speed: float | None

    @property
    def left(self) -> int:
        """Sheets that are left by the count."""
        return self.bought - self.used - self.spoiled


_USED = (
    "(SELECT count(DISTINCT mine.sheet_id) FROM papers_of_sheets AS mine WHERE mine.batch_id = batches.id AND"
    " mine.id = (SELECT max(of.id) FROM papers_of_sheets AS of JOIN acts ON acts.id = of.act_id"
    " AND acts.undone_unix_s IS NULL WHERE of.sheet_id = mine.sheet_id))"
)
_BATCH = (
    f"SELECT batches.id, name, paper, size, sheets, {_USED},"
    f" (SELECT ifnull(sum(value), 0) FROM batch_findings {standing('batch_findings')}"
    " WHERE batch_id = batches.id AND kind = 'spoiled'),"
    f" (SELECT value FROM batch_findings {standing('batch_findings')}"
    " WHERE batch_id = batches.id AND kind = 'speed' ORDER BY batch_findings.id DESC LIMIT 1)"
    f" FROM batches {standing('batches')}"
)
# When a batch was last used: the later of 'paper use' and of a sheet that was given to it, by act.
_LAST_USE = (
    "SELECT max(ifnull((SELECT acts.id FROM batch_findings {finding}"
    " WHERE batch_id = :batch AND kind = 'use' ORDER BY batch_findings.id DESC LIMIT 1), 0),"
    " ifnull((SELECT acts.id FROM papers_of_sheets {paper}"
    " WHERE batch_id = :batch ORDER BY papers_of_sheets.id DESC LIMIT 1), 0))"
).format(finding=standing("batch_findings"), paper=standing("papers_of_sheets"))


def sides_of(size: str) -> Sides:
    """The sides of a sheet, the shorter first [mm]: what tells sizes apart."""
    sheet = parse_sheet(size, "size")
    shorter, longer = sorted((round(sheet.width_mm), round(sheet.height_mm)))
    return shorter, longer


def every(connection: sqlite3.Connection) -> list[Batch]:
    """All batches, in the order in which they were added."""
    return [_batch(row) for row in connection.execute(f"{_BATCH} ORDER BY batches.id").fetchall()]


def find(connection: sqlite3.Connection, name: str) -> Batch:
    """The batch of that name. Raises NotebookError with the nearest name."""
    row = connection.execute(f"{_BATCH} AND name = ? ORDER BY batches.id DESC LIMIT 1", (name,)).fetchone()
    if row is None:
        names = [batch.name for batch in every(connection)]
        known = suggestion(name, names) if names else f"; {errors.act('paper add')} writes down the first"
        raise NotebookError(f"paper '{name}': there is no such batch{known}")
    return _batch(row)


def add(
    connection: sqlite3.Connection,
    name: str,
    paper: str,
    size: str,
    sheets: int,
    speed: float | None,
    now_s: int,
) -> Batch:
    """Write down a new batch, with the speed if it is known already. Raises InputError for a name that is
    taken, or a size that is none."""
    sides_of(size)
    if not paper.strip():
        raise InputError(f"paper '{name}': say what it is, for example 'resin coated, grade 2'")
    if not name.strip() or name != name.strip():
        raise InputError(f"paper '{name}': a name of at least one letter, without spaces around it")
    if any(batch.name == name for batch in every(connection)):
        raise InputError(f"paper '{name}': there is such a batch already; give this one another name")
    with act(connection, f"paper {name}: {paper}, {size}, {sheets} sheets", now_s) as act_id:
        put = connection.execute(
            "INSERT INTO batches (act_id, name, paper, size, sheets) VALUES (?, ?, ?, ?, ?)",
            (act_id, name, paper, size, sheets),
        )
        if speed is not None:
            _put_finding(connection, act_id, put.lastrowid, Finding("speed", speed))
    return find(connection, name)


def note_findings(
    connection: sqlite3.Connection,
    batch: Batch,
    findings: Sequence[Finding],
    now_s: int,
    reading_id: int | None = None,
) -> None:
    """Write down findings, all or none. reading_id: the strip that says so."""
    said = "; ".join(
        " ".join(part for part in (finding.kind, _shown(finding.value), finding.text) if part)
        for finding in findings
    )
    with act(connection, f"paper {batch.name}: {said}", now_s) as act_id:
        for finding in findings:
            _put_finding(connection, act_id, batch.id, finding, reading_id)


def findings(connection: sqlite3.Connection, batch: Batch) -> list[Dated]:
    """All that stands about a batch, in the order of writing."""
    rows = connection.execute(
        "SELECT kind, value, setup, text, acts.done_unix_s FROM batch_findings"
        f" {standing('batch_findings')} WHERE batch_id = ? ORDER BY batch_findings.id",
        (batch.id,),
    ).fetchall()
    return [Dated(*row) for row in rows]


def sheets_of(connection: sqlite3.Connection, batch: Batch) -> list[int]:
    """Numbers of the sheets that are of a batch."""
    rows = connection.execute(
        "SELECT DISTINCT sheets.number FROM papers_of_sheets AS mine JOIN sheets ON sheets.id = mine.sheet_id"
        " WHERE mine.batch_id = ? AND mine.id = (SELECT max(of.id) FROM papers_of_sheets AS of"
        f" {standing('of')} WHERE of.sheet_id = mine.sheet_id) ORDER BY sheets.number",
        (batch.id,),
    ).fetchall()
    return [row["number"] for row in rows]


def of_sheet(connection: sqlite3.Connection, sheet_id: int) -> Batch | None:
    """The batch of a sheet, as last written."""
    row = connection.execute(
        f"SELECT batch_id FROM papers_of_sheets {standing('papers_of_sheets')} WHERE sheet_id = ?"
        " ORDER BY papers_of_sheets.id DESC LIMIT 1",
        (sheet_id,),
    ).fetchone()
    return None if row is None else _of_id(connection, row["batch_id"])


def in_use(connection: sqlite3.Connection, sides: Sides | None = None) -> Batch | None:
    """The batch in use for a size; without a size, the one used last of all. None: there is none.

    Of batches that were never used, the first that was added.
    """
    rows = connection.execute(
        f"SELECT batches.id, size FROM batches {standing('batches')} ORDER BY batches.id"
    ).fetchall()
    fitting = [row["id"] for row in rows if sides is None or sides_of(row["size"]) == sides]
    used = max(fitting, key=lambda batch_id: (_last_use(connection, batch_id), -batch_id), default=None)
    return None if used is None else _of_id(connection, used)


def put(connection: sqlite3.Connection, act_id: int, sheet_ids: Iterable[int], batch: Batch) -> None:
    """Within an act: these sheets are of this batch."""
    connection.executemany(
        "INSERT INTO papers_of_sheets (act_id, sheet_id, batch_id) VALUES (?, ?, ?)",
        [(act_id, sheet_id, batch.id) for sheet_id in sheet_ids],
    )


def _of_id(connection: sqlite3.Connection, batch_id: int) -> Batch:
    return _batch(connection.execute(f"{_BATCH} AND batches.id = ?", (batch_id,)).fetchone())


def _last_use(connection: sqlite3.Connection, batch_id: int) -> int:
    return connection.execute(_LAST_USE, {"batch": batch_id}).fetchone()[0]


def _put_finding(
    connection: sqlite3.Connection,
    act_id: int,
    batch_id: int | None,
    finding: Finding,
    reading_id: int | None = None,
) -> None:
    connection.execute(
        "INSERT INTO batch_findings (act_id, batch_id, kind, value, setup, text, reading_id)"
        " VALUES (?, ?, ?, ?, ?, ?, ?)",
        (act_id, batch_id, *astuple(finding), reading_id),
    )


def _batch(row: sqlite3.Row) -> Batch:
    first, spoiled, speed = list(row)[:6], row[6], row[7]
    return Batch(*first, spoiled=int(spoiled), speed=speed)


def _shown(value: float | None) -> str:
    return "" if value is None else f"{value:.3g}"
