"""The list of sheets, all or some of them, the newest first; fast however many there are.

One filter drives (an index gives its sheets in order), the others are asked sheet by sheet until there are
enough.
"""

import json
import sqlite3
from collections.abc import Iterator
from dataclasses import dataclass, fields

from footlight.notebook.acts import standing
from footlight.notebook.dates import When
from footlight.notebook.sheets.by_number import SHEET


@dataclass(frozen=True)
class Wanted:
    """Which sheets; None: whatever it is. paper: id of a batch. session: ids of runs, as JSON. since: [s]."""

    paper: int | None = None
    session: str | None = None
    defect: str | None = None
    verdict: str | None = None
    since_unix_s: int | None = None


@dataclass(frozen=True)
class Listed:
    """A line of the list. `titles`: of its runs, in order. `ended`: how the last one ended."""

    number: int
    controller: str
    epoch: str
    when: When
    titles: list[str]
    ended: str | None
    paper: str
    verdict: str
    defects: list[str]


_VERDICT = (
    f"(SELECT text FROM remarks {standing('remarks')} WHERE sheet_id = :sheet AND kind = 'verdict'"
    " ORDER BY remarks.id DESC LIMIT 1)"
)
_PAPER = (
    f"(SELECT batch_id FROM papers_of_sheets {standing('papers_of_sheets')} WHERE sheet_id = :sheet"
    " ORDER BY papers_of_sheets.id DESC LIMIT 1)"
)
_BY_TEXT = (
    "SELECT DISTINCT sheet_id FROM remarks WHERE kind = '{kind}' AND kind != 'note' AND text = :{kind}"
    " ORDER BY sheet_id DESC"
)
# Filter -> (sheets that may fit, the newest first; does this :sheet fit?). The first that is wanted drives.
_FILTERS = {
    "paper": (
        "SELECT DISTINCT sheet_id FROM papers_of_sheets WHERE batch_id = :paper ORDER BY sheet_id DESC",
        f"SELECT 1 WHERE {_PAPER} = :paper",
    ),
    "session": (
        "SELECT DISTINCT sheet_id FROM run_sheets WHERE run_id IN (SELECT value FROM json_each(:session))"
        " ORDER BY sheet_id DESC",
        "SELECT 1 FROM run_sheets WHERE sheet_id = :sheet"
        " AND run_id IN (SELECT value FROM json_each(:session))",
    ),
    "defect": (
        _BY_TEXT.format(kind="defect"),
        f"SELECT 1 FROM remarks {standing('remarks')} WHERE sheet_id = :sheet AND kind = 'defect'"
        " AND text = :defect",
    ),
    "verdict": (_BY_TEXT.format(kind="verdict"), f"SELECT 1 WHERE {_VERDICT} = :verdict"),
    "since_unix_s": (
        # A run whose date is not known may have been since then; those few come first.
        "SELECT sheet_id FROM (SELECT sheet_id FROM runs JOIN run_sheets ON run_id = runs.id"
        " WHERE (from_unix_s IS NULL OR from_unix_s IS NOT to_unix_s) AND to_unix_s >= :since_unix_s"
        " ORDER BY sheet_id DESC)"
        " UNION ALL SELECT sheet_id FROM (SELECT sheet_id FROM runs JOIN run_sheets ON run_id = runs.id"
        " WHERE from_unix_s >= :since_unix_s ORDER BY from_unix_s DESC, sheet_id DESC)",
        "SELECT 1 FROM runs JOIN run_sheets ON run_id = runs.id WHERE sheet_id = :sheet"
        " AND (from_unix_s >= :since_unix_s OR to_unix_s >= :since_unix_s)",
    ),
}


def newest(connection: sqlite3.Connection, most: int) -> list[Listed]:
    """The sheets that were begun last, the newest first."""
    rows = connection.execute(f"{SHEET} ORDER BY sheets.id DESC LIMIT ?", (most,)).fetchall()
    return [_listed(connection, row) for row in rows]


def some(connection: sqlite3.Connection, wanted: Wanted, most: int) -> tuple[list[Listed], bool]:
    """The newest sheets that fit everything wanted, and whether there are more."""
    found: list[Listed] = []
    for sheet_id in _fitting(connection, wanted):
        row = connection.execute(f"{SHEET} AND sheets.id = ?", (sheet_id,)).fetchone()
        if row is None:
            continue
        if len(found) == most:
            return found, True
        found.append(_listed(connection, row))
    return found, False


def count(connection: sqlite3.Connection) -> int:
    """How many sheets there are."""
    taken_back = (
        "SELECT count(*) FROM sheets JOIN acts ON acts.id = sheets.act_id"
        " WHERE sheets.act_id IS NOT NULL AND acts.undone_unix_s IS NOT NULL"
    )
    return connection.execute(f"SELECT count(*) - ({taken_back}) FROM sheets").fetchone()[0]


def _fitting(connection: sqlite3.Connection, wanted: Wanted) -> Iterator[int]:
    values = {field.name: getattr(wanted, field.name) for field in fields(Wanted)}
    names = [name for name in _FILTERS if values[name] is not None]
    seen: set[int] = set()
    for (sheet_id,) in connection.execute(_FILTERS[names[0]][0], values):
        if sheet_id in seen:
            continue
        seen.add(sheet_id)
        at = values | {"sheet": sheet_id}
        if all(connection.execute(_FILTERS[name][1], at).fetchone() for name in names):
            yield sheet_id


def _listed(connection: sqlite3.Connection, sheet: sqlite3.Row) -> Listed:
    runs = connection.execute(
        "SELECT runs.title, runs.ended, runs.from_unix_s, runs.to_unix_s FROM runs"
        " JOIN run_sheets ON run_sheets.run_id = runs.id WHERE run_sheets.sheet_id = ?"
        " ORDER BY runs.first_number",
        (sheet["id"],),
    ).fetchall()
    last = runs[-1] if runs else {"ended": None, "from_unix_s": None, "to_unix_s": None}
    at = {"sheet": sheet["id"]}
    paper = connection.execute(f"SELECT name FROM batches WHERE id = {_PAPER}", at).fetchone()
    defects = connection.execute(
        f"SELECT text FROM remarks {standing('remarks')} WHERE sheet_id = :sheet AND kind = 'defect'"
        " ORDER BY remarks.id",
        at,
    ).fetchall()
    return Listed(
        sheet["number"],
        sheet["controller_id"],
        sheet["epoch"],
        When(last["from_unix_s"], last["to_unix_s"]),
        [run["title"] or "?" for run in runs],
        last["ended"],
        paper["name"] if paper else "",
        connection.execute(f"SELECT {_VERDICT}", at).fetchone()[0] or "",
        list(dict.fromkeys(row["text"] for row in defects)),
    )


def runs_as_text(runs: tuple[int, ...]) -> str:
    """Ids of runs as `Wanted.session` takes them."""
    return json.dumps(runs)
