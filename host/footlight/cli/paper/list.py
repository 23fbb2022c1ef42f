"""`footlight paper list`"""

from dataclasses import asdict
from pathlib import Path

import click

from footlight.cli.options import hint, json_option, notebook_option, print_json
from footlight.views.table import columns


@click.command("list")
@notebook_option
@json_option
def command(book: Path, as_json: bool) -> None:
    """All batches: bought, used by sheets with a number, spoiled, left; '*' marks those in use.

    \b
    Example:
      footlight paper list
    """
    from footlight.notebook.book import notebook
    from footlight.notebook.stock import papers

    with notebook(book, writing=False) as connection:
        batches = papers.every(connection)
        sizes = {papers.sides_of(batch.size) for batch in batches}
        in_use = {used.id for sides in sizes if (used := papers.in_use(connection, sides))}
    if as_json:
        print_json([asdict(batch) | {"left": batch.left, "in_use": batch.id in in_use} for batch in batches])
        return
    rows = [
        [
            f"{batch.name}{' *' if batch.id in in_use else ''}",
            batch.paper,
            batch.size,
            "–" if batch.speed is None else f"{batch.speed:g}",
            *(f"{count}" for count in (batch.bought, batch.used, batch.spoiled, batch.left)),
        ]
        for batch in batches
    ]
    for line in columns(["name", "paper", "size", "index", "bought", "used", "spoiled", "left"], rows):
        click.echo(line)
    if rows:
        click.echo("* in use for its size")
    else:
        hint("No paper yet: 'footlight paper add' writes down a batch.")
