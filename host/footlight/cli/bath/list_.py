"""`footlight bath list`"""

from pathlib import Path

import click

from footlight.cli.bath import options
from footlight.cli.options import hint, json_option, notebook_option, print_json


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
    from footlight.baths.condition import shelf, unknown_sheets
    from footlight.cli.bath import tables
    from footlight.notebook.book import notebook

    with notebook(book, writing=False) as connection:
        found = shelf(connection, options.now_s())
        unknown = unknown_sheets(connection, found)
    if as_json:
        print_json({"baths": [tables.as_dict(one) for one in found.in_use], "unknown_sheets": unknown})
        return
    if not found.in_use:
        click.echo("No bath is in use.")
        hint("Write one: footlight bath mixed bleach --volume '1 l'")
        return
    for line in tables.lines(found, unknown):
        click.echo(line)
