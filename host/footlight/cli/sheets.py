"""`footlight sheets`: the list of sheets."""

from pathlib import Path
from typing import Any

import click

from footlight.cli.options import hint, json_option, notebook_option, print_json, terminal_width
from footlight.cli.types import FROM_1, Moment
from footlight.notebook.sheets.remarks import DEFECTS, VERDICTS


@click.command("sheets")
@click.option("--last", "most", type=FROM_1, default=20, show_default=True, help="So many, newest first.")
@click.option("--paper", metavar="NAME", help="Only those of this batch.")
@click.option("--verdict", type=click.Choice(VERDICTS), help="Only those that turned out so.")
@click.option("--defect", type=click.Choice(DEFECTS), help="Only those with this defect.")
@click.option("--session", metavar="NAME", help="Only those of this evening.")
@click.option(
    "--since",
    "since_unix_s",
    metavar="WHEN",
    type=Moment(),
    help="Only those with a run since then, or maybe since: '2026-03-01'.",
)
@notebook_option
@json_option
def command(most: int, book: Path, as_json: bool, **filters: Any) -> None:
    """List the sheets in the notebook, the newest first; of several filters, those that fit all.

    \b
    Example:
      footlight sheets --last 5
      footlight sheets --paper A --verdict good
      footlight sheets --defect mottle --since 2026-03-01
    """
    from footlight.actions.list_sheets import Filters, list_sheets
    from footlight.views import sheets

    listed = list_sheets(book, most, Filters(**filters))
    if as_json:
        print_json([sheets.as_dict(sheet) for sheet in listed.sheets])
        return
    for line in sheets.lines(listed.sheets, terminal_width()):
        click.echo(line)
    if listed.more:
        click.echo("more fit: give a larger --last")
    if listed.older:
        click.echo(f"{listed.older} older ones: --last {listed.older + len(listed.sheets)}")
    if not listed.sheets:
        fits = any(value is not None for value in filters.values())
        hint("No sheet fits." if fits else "No sheets yet: 'footlight collect' brings them home.")
