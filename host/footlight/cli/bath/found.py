"""`footlight bath found`"""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from footlight.cli.bath import options
from footlight.cli.options import hint, json_option, notebook_option, print_json

if TYPE_CHECKING:
    from footlight.notebook.stock.baths import Finding


@click.command
@click.argument("name")
@click.argument("note", nargs=-1)
@click.option("--clearing", metavar="TIME", help="How long clearing or bleaching took: '95 s'.")
@click.option("--temperature", metavar="TEMPERATURE", help="Of the bath: '20 °C'.")
@click.option("--topped", metavar="VOLUME", help="Topped up with fresh working solution: '100 ml'.")
@click.option("--sheets", metavar="N", help="Your own capacity: sheets of 8x10, each visit counted.")
@click.option("--hours", metavar="N", help="Your own limit of hours in the open tray.")
@options.at
@notebook_option
@json_option
def command(
    name: str,
    note: tuple[str, ...],
    clearing: str | None,
    temperature: str | None,
    topped: str | None,
    sheets: str | None,
    hours: str | None,
    moment: str,
    book: Path,
    as_json: bool,
) -> None:
    """What was found out about the bath NAME that is in use; a NOTE in your words needs no quotes.

    The first clearing time written is the fresh one. Without any, the steps judged by eye in its tray are
    taken. Your own capacity holds for later baths of the same name and formula too, by volume.

    \b
        footlight bath found bleach --clearing "95 s"
        footlight bath found developer --temperature "21 °C" brown already, but works
        footlight bath found bleach --sheets 6 --hours 3
    """
    from footlight.errors import InputError
    from footlight.notebook.book import notebook
    from footlight.notebook.stock import baths

    present_s = options.now_s()
    at_s = options.said_moment(moment, present_s)
    found = _findings(_values(clearing, temperature, topped, sheets, hours), " ".join(note), at_s)
    if not found:
        raise InputError(f"{name}: nothing to write; give a note, --clearing, --temperature, --topped, ...")
    with notebook(book, writing=True, making=False) as connection:
        bath = baths.current(connection, name)
        baths.note(connection, [(bath, one) for one in found], present_s)
    if as_json:
        print_json({"name": bath.name, "id": bath.id, "found": [vars(one) for one in found]})
        return
    for one in found:
        click.echo(f"{bath.name}: {baths.in_words(one)}")
    hint("Take it back with 'footlight undo'.")


def _findings(values: dict[str, float], note: str, at_s: int) -> "list[Finding]":
    from footlight.notebook.stock.baths import Finding

    found = [Finding(kind, value, at_unix_s=at_s) for kind, value in values.items()]
    return found + ([Finding("note", None, note, at_s)] if note else [])


def _values(
    clearing: str | None, temperature: str | None, topped: str | None, sheets: str | None, hours: str | None
) -> dict[str, float]:
    """What was given, by the kind of finding."""
    from footlight import quantities as q

    values = {
        "clearing": q.parse_seconds(clearing, "--clearing", least_s=1, most_s=3600) if clearing else None,
        "temperature": _temperature(temperature) if temperature else None,
        "topped": q.parse_volume_ml(topped, "--topped") if topped else None,
        "sheets": q.parse_number(sheets, "--sheets", least=0.1, most=1000) if sheets else None,
        "hours": q.parse_number(hours, "--hours", least=0.1, most=1000) if hours else None,
    }
    return {kind: value for kind, value in values.items() if value is not None}


def _temperature(written: str) -> float:
    from footlight import quantities as q
    from footlight.errors import InputError

    temperature_c = q.parse_temperature_c(written, "--temperature")
    if not 5 <= temperature_c <= 60:
        raise InputError(f"--temperature: '{written}' is out of range for a bath; allowed is 5 to 60 °C")
    return temperature_c
