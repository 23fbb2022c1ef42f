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
    from footlight.actions.note_paper import count_off_paper

    batch = count_off_paper(book, name, count, " ".join(why), int(time.time()))
    if as_json:
        print_json({"paper": name, "spoiled": batch.spoiled, "left": batch.left})
    else:
        click.echo(f"paper {name}: {batch.spoiled} spoiled, {batch.left} left")
