"""`footlight session show`"""

import time
from dataclasses import asdict
from pathlib import Path

import click

from footlight.cli.layout import columns, date_text
from footlight.cli.numbers import spans
from footlight.cli.options import json_option, notebook_option, print_json


@click.command("show")
@click.argument("name", required=False)
@notebook_option
@json_option
def command(name: str | None, book: Path, as_json: bool) -> None:
    """One evening by its NAME, or the last one: its runs and sheets, verdicts, and the baths in use.

    \b
    Example:
      footlight session show
      footlight session show "first portraits"
    """
    from footlight.notebook import sessions, sheets
    from footlight.notebook.book import notebook

    with notebook(book, writing=False) as connection:
        evening = sessions.find(connection, name)
        numbers = sessions.sheets_of(connection, evening)
        runs = [sheets.run_of(connection, run) for run in evening.runs]
        baths = sessions.baths_in(connection, evening)
        verdicts = {run: sheets.verdicts_of_run(connection, run) for run in evening.runs}
    if as_json:
        print_json(
            asdict(evening)
            | {
                "runs": [dict(run) | {"sheets": numbers[run["id"]]} for run in runs],
                "verdicts": {number: text for found in verdicts.values() for number, text in found},
                "baths": [asdict(bath) for bath in baths],
            }
        )
        return
    click.echo(f"{evening.name or 'Evening'}: {_span(evening.from_unix_s, evening.to_unix_s)}")
    if evening.note:
        click.echo(evening.note)
    rows = [
        [
            time.strftime("%H:%M", time.localtime(run["from_unix_s"])),
            run["title"] or "?",
            spans(numbers[run["id"]]),
            run["ended"] or "not ended",
            _verdict(verdicts[run["id"]], numbers[run["id"]]),
        ]
        for run in runs
    ]
    for line in columns(["began", "sequence", "sheets", "ended", "verdict"], rows):
        click.echo(line)
    if not rows:
        click.echo("No run with a date began in it.")
    for bath in baths:
        made = bath.formula or bath.made_from or f"{bath.volume_ml:g} mL"
        click.echo(f"{bath.name}: {made}, mixed {date_text(bath.mixed_unix_s)}")


def _verdict(found: list[tuple[int, str]], numbers: list[int]) -> str:
    """Of a run for one sheet; a batch was not yet printed."""
    return found[0][1] if found and len(numbers) == 1 else "–"


def _span(from_s: int, to_s: int) -> str:
    same_day = time.localtime(from_s)[:3] == time.localtime(to_s)[:3]
    end = time.strftime("%H:%M", time.localtime(to_s)) if same_day else date_text(to_s)
    return date_text(from_s) if from_s == to_s else f"{date_text(from_s)} to {end}"
