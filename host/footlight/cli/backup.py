"""`footlight backup`: a copy of the notebook."""

from dataclasses import asdict
from pathlib import Path

import click

from footlight.cli.options import json_option, notebook_option, print_json, say_spoilt


@click.command("backup")
@click.argument("copy", type=click.Path(path_type=Path))
@notebook_option
@json_option
def command(copy: Path, book: Path, as_json: bool) -> None:
    """Write a whole, checked copy of the notebook to the file COPY, also while it is in use.

    An existing file is not overwritten. A copy is opened with --notebook like any notebook.

    \b
    Example:
      footlight backup notebook-2026-03-01.sqlite
    """
    from footlight.actions.keep_notebook import back_up

    written = back_up(book, copy)
    if as_json:
        print_json({"copy": str(copy), **asdict(written)})
    elif not written.spoilt:
        click.echo(f"{copy}: {written.bytes} bytes, checked")
    say_spoilt(copy, written.spoilt)
