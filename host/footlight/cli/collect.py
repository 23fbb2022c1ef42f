"""`footlight collect`: bring the controller's journal home into the notebook."""

import time
from pathlib import Path

import click

from footlight.cli.options import hint, json_option, notebook_option, port_option, print_json


@click.command("collect")
@port_option
@notebook_option
@json_option
def command(port: str | None, book: Path, as_json: bool) -> None:
    """Bring what the controller has written into the notebook.

    The controller may delete a record only after it is safely in the notebook. Doing it twice changes
    nothing. It works even when controller and computer are of different make.

    \b
    Example:
      footlight collect
    """
    from footlight.actions.collect_journal import collect_journal
    from footlight.views.journal_home import home_dict, home_lines

    home = collect_journal(book, int(time.time()), port)
    if as_json:
        print_json(home_dict(home))
        return
    for line in home_lines(home):
        click.echo(line)
    if home.brought.sheets:
        hint(f"Look at one with 'footlight sheet {max(home.brought.sheets)}'.")
