"""`footlight history`: the acts, also those that were taken back."""

from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING

import click

from footlight.cli.options import hint, json_option, notebook_option, print_json
from footlight.cli.types import FROM_1
from footlight.views.table import columns
from footlight.views.times import date_text

if TYPE_CHECKING:
    from footlight.notebook.acts import Dated


@click.command("history")
@click.option("--last", "most", type=FROM_1, default=20, show_default=True, help="So many, newest first.")
@notebook_option
@json_option
def command(most: int, book: Path, as_json: bool) -> None:
    """What each command entered into the notebook, the newest first, and what of it was taken back or
    reinstated when.

    \b
    Example:
      footlight history --last 5
    """
    from footlight.notebook import acts
    from footlight.notebook.book import notebook

    with notebook(book, writing=False) as connection:
        listed = acts.recent(connection, most)
    if as_json:
        print_json([asdict(act) for act in listed])
        return
    rows = [[f"{act.id}", date_text(act.done_unix_s), _told(act)] for act in listed]
    for line in columns(["act", "entered", "what"], rows):
        click.echo(line)
    if not rows:
        hint("Nothing was entered yet. What controllers recorded is listed by 'footlight sheets'.")


def _told(act: "Dated") -> str:
    turns = ", ".join(f"{turn.kind} {date_text(turn.at_unix_s)}" for turn in act.turns)
    return f"{act.said} ({turns})" if turns else act.said
