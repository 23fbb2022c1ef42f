"""`footlight restore`: a new notebook from an exported file."""

from dataclasses import asdict
from pathlib import Path

import click

from footlight.cli.options import json_option, notebook_option, print_json, say_spoilt


@click.command("restore")
@click.argument("file", type=click.Path(path_type=Path))
@notebook_option
@json_option
def command(file: Path, book: Path, as_json: bool) -> None:
    """Make a new notebook of what 'footlight export' wrote, also of an older version: a file or CSV folder.

    A notebook that holds anything is never written over; name a new file with --notebook. All or nothing.

    \b
    Example:
      footlight restore everything.json --notebook again.sqlite
      footlight restore tables --notebook again.sqlite
    """
    from footlight.actions.keep_notebook import restore_notebook

    restored = restore_notebook(file, book)
    if as_json:
        print_json({"notebook": str(book), **asdict(restored)})
    elif not restored.spoilt:
        click.echo(f"{book}: {restored.rows} rows, checked")
    say_spoilt(book, restored.spoilt)
