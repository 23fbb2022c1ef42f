"""Sessions: the evenings that the dates of runs tell, and the names that the printer gives them.

Runs whose beginnings lie at most `GAP_S` apart are one evening. A name is given to a span of time: with an
end, the runs that began within it are the session; without one, it names the evening that it begins in.

The controller has no clock of the date: an evening without a computer has none. Its runs still belong
together when the controller was not switched off between them; when it was is known only between two bounds,
and no name goes with it.
"""

import heapq
import sqlite3
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from footlight import errors
from footlight.errors import InputError, field
from footlight.notebook.acts import act, standing
from footlight.notebook.errors import NotebookError
from footlight.notebook.stock import baths
from footlight.notebook.stock.baths import Bath
from footlight.quantities.table import suggestion

GAP_S = 6 * 3600


@dataclass(frozen=True)
class Named:
    """A name for a span of time; `to_unix_s` None: for the evening that it begins in."""

    name: str
    from_unix_s: int
    to_unix_s: int | None
    note: str


@dataclass(frozen=True)
class Evening:
    """Runs that belong together. `name`: '' where none was given. `runs`: their ids, in order.

    from, to: when the first and last run began; if it is not `dated`, the bounds of that, None where there
    is none.
    """

    name: str
    note: str
    dated: bool
    from_unix_s: int | None
    to_unix_s: int | None
    runs: tuple[int, ...]


def name(connection: sqlite3.Connection, named: Named, now_s: int) -> None:
    """Write down a name; the same again replaces it. Raises InputError for an end before the beginning."""
    if not named.name.strip():
        raise InputError("session: a name of at least one letter")
    if named.to_unix_s is not None and named.to_unix_s < named.from_unix_s:
        raise InputError(
            f"session '{named.name}': it ends before it begins; give {field('to')} a later moment"
        )
    with act(connection, f"session {named.name}", now_s) as act_id:
        connection.execute(
            "INSERT INTO sessions (act_id, name, from_unix_s, to_unix_s, note) VALUES (?, ?, ?, ?, ?)",
            (act_id, named.name, named.from_unix_s, named.to_unix_s, named.note),
        )


def all_named(connection: sqlite3.Connection) -> list[Named]:
    """Every name as last written."""
    rows = connection.execute(
        f"SELECT name, from_unix_s, to_unix_s, note FROM sessions {standing('sessions')} ORDER BY sessions.id"
    ).fetchall()
    return list({row["name"]: Named(*row) for row in rows}.values())


def evenings(connection: sqlite3.Connection) -> Iterator[Evening]:
    """Every evening, the newest first; no more is read than is taken."""
    by_end = (_dated(connection), _undated(connection))
    return heapq.merge(*by_end, key=lambda evening: evening.to_unix_s or 0, reverse=True)


def _dated(connection: sqlite3.Connection) -> Iterator[Evening]:
    named = all_named(connection)
    bounded = [session for session in named if session.to_unix_s is not None]
    rows = connection.execute(
        "SELECT id, from_unix_s FROM runs WHERE from_unix_s = to_unix_s ORDER BY from_unix_s DESC, id DESC"
    )
    gathered: list[tuple[int, int]] = []
    held: Named | None = None
    for row in rows:
        inside = next((session for session in bounded if _within(session, row["from_unix_s"])), None)
        apart = gathered and gathered[-1][1] - row["from_unix_s"] > GAP_S
        if gathered and (inside != held or (apart and inside is None)):
            yield _evening(gathered, held, named)
            gathered = []
        held = inside
        gathered.append((row["id"], row["from_unix_s"]))
    if gathered:
        yield _evening(gathered, held, named)


def _undated(connection: sqlite3.Connection) -> Iterator[Evening]:
    rows = connection.execute(
        "SELECT id, epoch_id, boot, t_ms, from_unix_s, to_unix_s FROM runs"
        " WHERE from_unix_s IS NULL OR from_unix_s IS NOT to_unix_s"
        " ORDER BY to_unix_s DESC, epoch_id DESC, first_number DESC"
    )
    gathered: list[sqlite3.Row] = []
    for row in rows:
        if gathered and not _same_stretch(row, gathered[-1]):
            yield _between(gathered)
            gathered = []
        gathered.append(row)
    if gathered:
        yield _between(gathered)


def _same_stretch(row: sqlite3.Row, later: sqlite3.Row) -> bool:
    """Was the controller not switched off between two runs, and no long time idle?"""
    same = (row["epoch_id"], row["boot"]) == (later["epoch_id"], later["boot"])
    return same and later["t_ms"] - row["t_ms"] <= GAP_S * 1000


def _between(gathered: list[sqlite3.Row]) -> Evening:
    first = gathered[-1]
    runs = tuple(row["id"] for row in reversed(gathered))
    return Evening("", "", False, first["from_unix_s"], first["to_unix_s"], runs)


def find(connection: sqlite3.Connection, wanted: str | None) -> Evening:
    """The evening of that name; the last one without a name. Raises NotebookError."""
    if wanted is None:
        evening = next(evenings(connection), None)
        if evening is None:
            raise NotebookError(f"no evening yet: {errors.act('collect')} brings runs home")
        return evening
    names = {session.name: session for session in all_named(connection)}
    if wanted not in names:
        known = (
            suggestion(wanted, list(names))
            if names
            else f"; {errors.act('session name')} gives the first one"
        )
        raise NotebookError(f"session '{wanted}': there is none of that name{known}")
    return _of_name(connection, names[wanted])


def sheets_of(connection: sqlite3.Connection, evening: Evening) -> dict[int, list[int]]:
    """Id of a run -> numbers of its sheets."""
    by_run: dict[int, list[int]] = {run: [] for run in evening.runs}
    for run in evening.runs:
        rows = connection.execute(
            "SELECT sheets.number FROM run_sheets JOIN sheets ON sheets.id = sheet_id WHERE run_id = ?"
            " ORDER BY sheets.number",
            (run,),
        ).fetchall()
        by_run[run] = [row["number"] for row in rows]
    return by_run


def baths_in(connection: sqlite3.Connection, evening: Evening) -> list[Bath]:
    """The baths that stood in their trays then; none where the date is not known."""
    if not evening.dated or evening.from_unix_s is None or evening.to_unix_s is None:
        return []
    known = baths.every(connection)
    return [bath for bath in known if baths.in_tray(bath, evening.from_unix_s, evening.to_unix_s)]


def _of_name(connection: sqlite3.Connection, named: Named) -> Evening:
    for evening in evenings(connection):
        if evening.name == named.name:
            return evening
        if (evening.to_unix_s or 0) < named.from_unix_s - GAP_S:
            break
    end = named.from_unix_s if named.to_unix_s is None else named.to_unix_s
    return Evening(named.name, named.note, True, named.from_unix_s, end, ())


def _evening(gathered: list[tuple[int, int]], held: Named | None, named: Iterable[Named]) -> Evening:
    """Gathered from the newest on, so the first run is the last of the list."""
    first_s, last_s = gathered[-1][1], gathered[0][1]
    if held is None:
        open_names = [session for session in named if session.to_unix_s is None]
        held = next(
            (session for session in open_names if first_s - GAP_S < session.from_unix_s <= last_s), None
        )
    runs = tuple(run for run, _ in reversed(gathered))
    return Evening(held.name if held else "", held.note if held else "", True, first_s, last_s, runs)


def _within(named: Named, at_s: int) -> bool:
    return named.from_unix_s <= at_s <= (named.to_unix_s or 0)
