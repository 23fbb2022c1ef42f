"""`footlight paper use`"""

import time
from pathlib import Path

import click

from footlight.cli.options import json_option, notebook_option, print_json


@click.command("use")
@click.argument("name")
@notebook_option
@json_option
def command(name: str, book: Path, as_json: bool) -> None:
    """From now on, sheets of its size that come home, or go into the camera, are of batch NAME.

    \b
    Example:
      footlight paper use B
    """
    from footlight.actions.note_paper import use_paper

    batch = use_paper(book, name, int(time.time()))
    if as_json:
        print_json({"paper": name, "size": batch.size, "in_use": True, "left": batch.left})
    else:
        click.echo(f"paper {name} is in use for {batch.size}: {batch.left} left")
