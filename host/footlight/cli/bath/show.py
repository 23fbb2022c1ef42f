"""`footlight bath show`"""

from pathlib import Path

import click

from footlight.cli.bath import options
from footlight.cli.options import json_option, notebook_option, print_json, terminal_width
from footlight.cli.types import FROM_0


@click.command
@click.argument("name")
@click.option("--before", type=FROM_0, default=0, help="Not the last of that name, but so many before.")
@notebook_option
@json_option
def command(name: str, before: int, book: Path, as_json: bool) -> None:
    """One bath: what it is, every visit, what was found, and how its limits came about.

    \b
        footlight bath show bleach
        footlight bath show bleach --before 1
    """
    from footlight.actions.list_baths import show_bath
    from footlight.views import baths

    condition = show_bath(book, name, before, options.now_s())
    if as_json:
        print_json(baths.as_dict(condition) | {"visits": [vars(visit) for visit in condition.visits]})
        return
    for line in baths.whole(condition, terminal_width()):
        click.echo(line)
