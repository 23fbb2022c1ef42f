"""`footlight read match`"""

import json
import math
import time
from pathlib import Path

import click

from footlight.cli.options import json_option, notebook_option, print_json
from footlight.errors import InputError
from footlight.notebook.sheets.readings import Kept
from footlight.quantities import format_stops

_KINDS = {"strip": "second", "eye": "second", "pre-flash": "pre-flash"}
_WHAT = {"second": "second exposure", "pre-flash": "pre-flash"}


@click.command("match")
@click.argument("old", type=click.IntRange(1))
@click.argument("new", type=click.IntRange(1))
@click.option("--batch", metavar="NAME", help="The new batch; without it, that of the new strip's sheet.")
@notebook_option
@json_option
def command(old: int, new: int, batch: str | None, book: Path, as_json: bool) -> None:
    """How much more light a NEW batch of paper needs than the OLD one, from the readings of a strip of each.

    Both strips must be of one kind and lit by the same light at the same place. The difference is that of
    full black, or of the pre-flash threshold, with its 90 % interval; it is written as found out about the
    new batch, counted from what is known of the old one.

    \b
        footlight read match 3 8
        footlight read match 3 8 --batch B
    """
    from footlight.notebook.book import notebook
    from footlight.notebook.sheets import readings
    from footlight.notebook.stock import papers

    with notebook(book, writing=True) as connection:
        pair = readings.find(connection, old), readings.find(connection, new)
        kind = _kind(*pair)
        found = _difference(*pair)
        into = papers.find(connection, batch) if batch else _batch(connection, pair[1])
        text = f"reading {new} against {old}: {_said(found)}"
        before = _known(connection, pair[0], kind)
        if into is not None:
            row = (kind, round(before + found[0], 4), pair[1].setup, text)
            papers.note_findings(connection, into, [row], int(time.time()), pair[1].id)
    if as_json:
        names = ("difference_stops", "low_stops", "high_stops")
        told = dict(zip(names, (round(value, 4) for value in found), strict=True))
        print_json({"kind": kind, **told, "batch": into.name if into else None, "old_stops": before})
        return
    click.echo(f"{_WHAT[kind]}: the new paper needs {_said(found)}")
    if into is None:
        click.echo(
            "Not written: the sheet of the new strip is of no batch that is known; name one with --batch."
        )
    else:
        value = format_stops(round(before + found[0], 2))
        click.echo(
            f"Written for batch {into.name}: {value} from the reference; 'footlight undo' takes it back."
        )


def _kind(old: Kept, new: Kept) -> str:
    """What is compared. Raises InputError where these two cannot be."""
    if old.kind not in _KINDS or new.kind not in _KINDS or _KINDS[old.kind] != _KINDS[new.kind]:
        raise InputError(
            f"readings {old.id} and {new.id}: {old.kind} and {new.kind}; name two strips of one kind"
        )
    places = [(one.setup, _told(one)["taken"]["place"]) for one in (old, new) if _told(one).get("taken")]
    if len(places) < 2 or places[0] != places[1]:
        lit = " and ".join(f"{place} ({setup})" for setup, place in places) or "unknown places"
        raise InputError(
            f"readings {old.id} and {new.id}: lit at {lit}; only strips that the notebook knows to be lit by"
            " the same light at the same place tell papers apart"
        )
    return _KINDS[old.kind]


def _difference(old: Kept, new: Kept) -> tuple[float, float, float]:
    """(new − old, low, high) [stops]: the two intervals are independent."""
    (a, a_low, a_high), (b, b_low, b_high) = _limit(old), _limit(new)
    found = b - a
    return found, found - math.hypot(b - b_low, a_high - a), found + math.hypot(b_high - b, a - a_low)


def _limit(kept: Kept) -> tuple[float, float, float]:
    """Full black or threshold with its interval, in stops from 1 s."""
    told = _told(kept)
    if kept.kind == "pre-flash":
        values = [told["threshold_s"], told["low_s"], told["high_s"]]
        stops = [None if value is None else math.log2(value) for value in values]
    else:
        full = (
            told["full_stops"]
            if kept.kind == "eye"
            else [told["full"][key] for key in ("low", "stops", "high")]
        )
        base = math.log2(told["present_s"])
        low, middle, high = (None if value is None else base + value for value in full)
        stops = [middle, low, high]
    if None in stops:
        raise InputError(
            f"reading {kept.id}: what is to be compared lies beyond its strip; make a strip that reaches it"
        )
    return stops[0], stops[1], stops[2]  # pyright: ignore[reportReturnType]


def _told(kept: Kept) -> dict:
    return json.loads(kept.result)


def _batch(connection, kept: Kept):
    from footlight.notebook.stock import papers

    return papers.of_sheet(connection, kept.sheet_id) if kept.sheet_id is not None else None


def _known(connection, kept: Kept, kind: str) -> float:
    """What is known of the old batch for that light [stops from the reference]; 0 where nothing is."""
    from footlight.notebook.stock import papers

    batch = _batch(connection, kept)
    if batch is None:
        return 0.0
    values = [
        one.value
        for one in papers.findings(connection, batch)
        if one.kind == kind and one.setup == kept.setup and one.value is not None
    ]
    return values[-1] if values else 0.0


def _said(found: tuple[float, float, float]) -> str:
    middle, low, high = (format_stops(round(value, 2)) for value in found)
    return f"{middle} ({low} to {high})"
