"""`footlight bath list`"""

from pathlib import Path

import click

from footlight.cli.bath import options
from footlight.cli.options import hint, json_option, notebook_option, print_json, terminal_width


@click.command("list")
@notebook_option
@json_option
def command(book: Path, as_json: bool) -> None:
    """The baths in use: hours in the tray, sheets through it, what is left, clearing time, state.

    'Through it' is area in sheets of 8x10, each visit counted. 'Left' is from where
    use begins to tell to where it ends.

    \b
        footlight bath list
    """
    from footlight.actions.list_baths import list_baths
    from footlight.views import baths

    listed = list_baths(book, options.now_s())
    conditions = listed.shelf.in_use
    if as_json:
        print_json({"baths": list(map(baths.as_dict, conditions)), "unknown_sheets": listed.unknown_sheets})
        return
    if not conditions:
        click.echo("No bath is in use.")
        hint("Write one: footlight bath mixed bleach --volume '1 l'")
        return
    for line in baths.lines(listed, terminal_width()):
        click.echo(line)
