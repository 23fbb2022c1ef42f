"""`footlight history`: the acts, also those that were taken back."""

from dataclasses import asdict
from pathlib import Path

import click

from footlight.cli.options import hint, json_option, notebook_option, print_json, terminal_width
from footlight.cli.types import FROM_1


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
    from footlight.actions.list_acts import list_acts
    from footlight.views import acts

    entered = list_acts(book, most)
    if as_json:
        print_json([asdict(act) for act in entered])
        return
    for line in acts.history(entered, terminal_width()):
        click.echo(line)
    if not entered:
        hint("Nothing was entered yet. What controllers recorded is listed by 'footlight sheets'.")
