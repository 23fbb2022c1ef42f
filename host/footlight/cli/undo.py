"""`footlight undo`: take back what was written last."""

import time
from pathlib import Path

import click

from footlight.cli.options import json_option, notebook_option, print_json


@click.command("undo")
@notebook_option
@json_option
def command(book: Path, as_json: bool) -> None:
    """Take back the last thing that was written about a sheet; again for the one before.

    It is kept in the notebook with its date and no longer shown. What the controller recorded is never
    undone.

    \b
    Example:
      footlight undo
    """
    from footlight.notebook import remarks
    from footlight.notebook.book import notebook

    with notebook(book, writing=True) as connection:
        taken = remarks.undo(connection, int(time.time()))
    if as_json:
        print_json({"sheet": taken.sheet, "kind": taken.kind, "text": taken.text})
    else:
        click.echo(f"taken back: sheet {taken.sheet}, {taken.kind}: {taken.text}")
