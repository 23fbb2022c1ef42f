"""`footlight undo`: take back what was written last."""

import time
from pathlib import Path

import click

from footlight.cli.options import json_option, notebook_option, print_json


@click.command("undo")
@notebook_option
@json_option
def command(book: Path, as_json: bool) -> None:
    """Take back what the last command wrote into the notebook; again for the one before.

    It is kept in the notebook with its date and no longer shown. What the controller recorded is never
    undone.

    \b
    Example:
      footlight undo
    """
    from footlight.notebook import acts
    from footlight.notebook.book import notebook

    with notebook(book, writing=True) as connection:
        taken = acts.undo(connection, int(time.time()))
    if as_json:
        print_json({"taken_back": taken.said, "done_unix_s": taken.done_unix_s})
    else:
        click.echo(f"taken back: {taken.said}")
