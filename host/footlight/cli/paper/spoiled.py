"""`footlight paper spoiled`"""

import time
from pathlib import Path

import click

from footlight.cli.options import json_option, notebook_option, print_json
from footlight.cli.types import WholeNumber


@click.command("spoiled")
@click.argument("name")
@click.argument("count", type=WholeNumber(most=10_000))
@click.argument("why", nargs=-1)
@notebook_option
@json_option
def command(name: str, count: int, why: tuple[str, ...], book: Path, as_json: bool) -> None:
    """Count off COUNT sheets of batch NAME that never got a number: fogged, creased, cut up for strips.

    A sheet with a number is counted by itself, also when the print is lost.

    \b
    Example:
      footlight paper spoiled A 2 cut up for strips
    """
    from footlight.errors import InputError
    from footlight.notebook.book import notebook
    from footlight.notebook.stock import papers

    with notebook(book, writing=True, making=False) as connection:
        batch = papers.find(connection, name)
        if count > batch.left:
            raise InputError(
                f"paper {name}: {count} spoiled, but only {max(0, batch.left)} left by the count; "
                f"'footlight paper show {name}' lists what was counted"
            )
        papers.note_findings(
            connection, batch, [("spoiled", float(count), "", " ".join(why))], int(time.time())
        )
        batch = papers.find(connection, name)
    if as_json:
        print_json({"paper": name, "spoiled": batch.spoiled, "left": batch.left})
    else:
        click.echo(f"paper {name}: {batch.spoiled} spoiled, {batch.left} left")
