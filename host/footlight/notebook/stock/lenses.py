"""Lenses of camera and enlarger; a later entry of the same name replaces an earlier one, which is kept."""

import sqlite3
from dataclasses import dataclass

from footlight import errors
from footlight.errors import InputError
from footlight.notebook.acts import act, standing
from footlight.notebook.errors import NotebookError
from footlight.quantities import FStop, parse_number, parse_stop
from footlight.quantities.table import suggestion

TrueStops = tuple[tuple[FStop, float], ...]
# Of f-numbers: two stops. Further off it is a slip of the pen. Common practice, no source.
_MOST_OFF = 2.0


@dataclass(frozen=True)
class Lens:
    """A lens as written down. `focal_mm` [mm]; `widest`: f-number as written, or ''.

    `true_stops`: as written, 'f/32 = 29.4, f/45 = 41', each a mark and the f-number measured at infinity.
    """

    name: str
    focal_mm: float
    widest: str
    true_stops: str
    note: str


_LENS = f"SELECT name, focal_mm, widest, true_stops, note FROM lenses {standing('lenses')}"


def read_true_stops(written: str, what: str) -> TrueStops:
    """`f/32 = 29.4, f/45 = 41` -> marks and measured f-numbers. Raises InputError."""
    stops: list[tuple[FStop, float]] = []
    for part in filter(None, (part.strip() for part in written.split(","))):
        mark, equals, true = (piece.strip() for piece in part.partition("="))
        if not equals:
            raise InputError(f"{what}: '{part}'; write the mark and what was measured: 'f/32 = 29.4'")
        stop = parse_stop(mark, what)
        if any(stop == other for other, _ in stops):
            raise InputError(f"{what}: {mark} is written twice; write each mark once")
        measured = parse_number(true.removeprefix("f/"), what, least=0.5, most=1024)
        if not 1 / _MOST_OFF <= measured / stop.exact_value <= _MOST_OFF:
            raise InputError(
                f"{what}: {mark} = {measured:g} is more than two stops from its mark; measure again"
            )
        stops.append((stop, measured))
    return tuple(stops)


def add(connection: sqlite3.Connection, lens: Lens, now_s: int) -> None:
    """Write down a lens, or write it anew. Raises InputError for stops that are none."""
    if not lens.name.strip():
        raise InputError("lens: it has no name; give it one")
    read_true_stops(lens.true_stops, f"lens '{lens.name}'")
    with act(connection, f"lens {lens.name}, {lens.focal_mm:g} mm", now_s) as act_id:
        connection.execute(
            "INSERT INTO lenses (act_id, name, focal_mm, widest, true_stops, note) VALUES (?, ?, ?, ?, ?, ?)",
            (act_id, lens.name, lens.focal_mm, lens.widest, lens.true_stops, lens.note),
        )


def every(connection: sqlite3.Connection) -> list[Lens]:
    """All lenses by name, each as last written."""
    rows = connection.execute(f"{_LENS} ORDER BY lenses.id").fetchall()
    return sorted({row["name"]: Lens(*row) for row in rows}.values(), key=lambda lens: lens.name)


def look(connection: sqlite3.Connection, name: str) -> Lens | None:
    """The lens of that name as last written, or None."""
    row = connection.execute(f"{_LENS} AND name = ? ORDER BY lenses.id DESC LIMIT 1", (name,)).fetchone()
    return Lens(*row) if row else None


def find(connection: sqlite3.Connection, name: str) -> Lens:
    """The lens of that name. Raises NotebookError with the nearest name."""
    lens = look(connection, name)
    if lens is None:
        names = [lens.name for lens in every(connection)]
        known = suggestion(name, names) if names else f"; {errors.act('lens add')} writes down the first"
        raise NotebookError(f"lens '{name}': there is no such lens{known}")
    return lens
