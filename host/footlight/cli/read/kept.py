"""`footlight read kept`"""

import json
from pathlib import Path

import click

from footlight import quantities as q
from footlight.cli.options import json_option, notebook_option, print_json, replace_option
from footlight.cli.read import reports
from footlight.errors import InputError
from footlight.notebook.sheets.readings import Kept
from footlight.views.table import columns
from footlight.views.times import date_text

_MOST = 20


@click.command("kept")
@click.argument("reading", type=click.IntRange(1), required=False)
@click.option("--picture", type=click.Path(path_type=Path), help="Write its picture into this file: .png.")
@replace_option
@notebook_option
@json_option
def command(reading: int | None, picture: Path | None, replace: bool, book: Path, as_json: bool) -> None:
    """The readings that were kept, the newest first; or one of them, by its number, as it was.

    \b
        footlight read kept
        footlight read kept 3 --picture strip.png
    """
    from footlight.notebook.book import notebook
    from footlight.notebook.sheets import readings

    if picture is not None and reading is None:
        raise InputError("--picture: name the reading whose picture it is")
    reports.check(picture, replace, reports.PNG, name="--picture")
    with notebook(book, writing=False) as connection:
        found = [readings.find(connection, reading)] if reading else readings.newest(connection, _MOST)
        if picture is not None and reading is not None:
            kept = readings.picture_of(connection, reading)
            reports.write(picture, replace, lambda path: path.write_bytes(kept))
    if as_json:
        print_json([_told(one) for one in found])
        return
    for line in columns(("reading", "kind", "sheet", "read", "what it says"), [_row(one) for one in found]):
        click.echo(line)
    for line in _words(found[0]) if reading else ():
        click.echo(line)


def _row(one: Kept) -> tuple[str, ...]:
    return (
        f"{one.id}",
        one.kind,
        "–" if one.sheet is None else f"{one.sheet}",
        date_text(one.done_unix_s),
        _says(one),
    )


def _says(one: Kept) -> str:
    if one.kind != "print":
        return "no safe dose" if one.dose_s is None else f"give {q.format_seconds(one.dose_s)}"
    values = (("black", one.d_max), ("veil", one.veil_d), ("mottle", one.mottle_d))
    return ", ".join(f"{name} {value:.3f} D" for name, value in values if value is not None)


def _words(one: Kept) -> list[str]:
    """Advice, and what it was taken from."""
    told = json.loads(one.result)
    taken = told.get("taken") or {}
    words = (told.get("advice") or told).get("words", [])
    return ["", *words, *taken.get("said", []), *taken.get("run_words", [])]


def _told(one: Kept) -> dict[str, object]:
    return {
        "reading": one.id,
        "kind": one.kind,
        "sheet": one.sheet,
        "setup": one.setup,
        "dose_s": one.dose_s,
        "read_unix_s": one.done_unix_s,
        "result": json.loads(one.result),
    }
