"""`footlight paper show`"""

from dataclasses import asdict
from pathlib import Path

import click

from footlight.cli.options import json_option, notebook_option, print_json
from footlight.notebook.stock.papers import Finding
from footlight.quantities.spans import format_spans
from footlight.views.table import columns
from footlight.views.times import date_text

_WORDS = {
    "speed": "exposure index",
    "pre-flash": "pre-flash threshold",
    "second": "second exposure",
    "spoiled": "spoiled",
    "use": "in use from here on",
    "note": "note",
}


@click.command("show")
@click.argument("name")
@notebook_option
@json_option
def command(name: str, book: Path, as_json: bool) -> None:
    """One batch: counts, everything found out about it with its date, and which sheets are of it.

    Of several values of a kind the last one holds.

    \b
    Example:
      footlight paper show A
    """
    from footlight.notebook.book import notebook
    from footlight.notebook.stock import papers

    with notebook(book, writing=False) as connection:
        batch = papers.find(connection, name)
        found = papers.findings(connection, batch)
        sheets = papers.sheets_of(connection, batch)
    if as_json:
        print_json(
            asdict(batch)
            | {"left": batch.left, "findings": [asdict(one) for one in found], "numbers": sheets}
        )
        return
    click.echo(f"paper {batch.name}: {batch.paper}, {batch.size}")
    counts = f"{batch.bought} bought, {batch.used} used, {batch.spoiled} spoiled: {batch.left} left"
    click.echo(counts + (f"; sheets {format_spans(sheets)}" if sheets else ""))
    rows = [[date_text(one.found_unix_s), _WORDS.get(one.kind, one.kind), _value(one)] for one in found]
    for line in columns(["written", "what", "found"], rows):
        click.echo(line)


def _value(one: Finding) -> str:
    from footlight.quantities.stops import format_stops

    value = ""
    if one.value is not None:
        value = format_stops(one.value) if one.kind in ("pre-flash", "second") else f"{one.value:g}"
    setup = f"with '{one.setup}'" if one.setup else ""
    return " ".join(part for part in (value, setup, one.text) if part)
