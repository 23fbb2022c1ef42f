"""`footlight bath show`"""

from pathlib import Path

import click

from footlight.cli.bath import options
from footlight.cli.options import json_option, notebook_option, print_json
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
    from footlight.baths.condition import shelf
    from footlight.cli.bath import tables
    from footlight.notebook.book import notebook
    from footlight.notebook.errors import NotebookError

    with notebook(book, writing=False) as connection:
        found = shelf(connection, options.now_s(), [name])
    conditions = found.conditions[::-1]
    if before >= len(conditions):
        count = len(conditions) or "none"
        raise NotebookError(f"bath '{name}': {count} of that name in the notebook; see 'footlight bath list'")
    one = conditions[before]
    if as_json:
        print_json(tables.as_dict(one) | {"visits": [vars(visit) for visit in one.visits]})
        return
    for line in tables.whole(one):
        click.echo(line)
