"""`footlight setups`: the history of light setups."""

from dataclasses import asdict
from pathlib import Path

import click

from footlight.cli.options import hint, json_option, notebook_option, print_json, terminal_width
from footlight.cli.types import FROM_1


@click.command("setups")
@click.argument("name", required=False)
@click.option("--last", "most", type=FROM_1, default=20, show_default=True, help="So many, newest first.")
@notebook_option
@json_option
def command(name: str | None, most: int, book: Path, as_json: bool) -> None:
    """Every reference exposure that was written into a light-setups file, newest first; NAME: of one setup.

    The files themselves are yours; this is what 'footlight accept' wrote into them, and after which strip.

    \b
    Example:
      footlight setups
      footlight setups "second exposure"
    """
    from footlight.actions.list_setups import list_setups
    from footlight.views import setups

    listed = list_setups(book, name, most)
    if as_json:
        print_json([asdict(change) for change in listed])
        return
    for line in setups.lines(listed, terminal_width()):
        click.echo(line)
    if not listed:
        hint("No reference was written yet: 'footlight accept' writes one after a strip.")
