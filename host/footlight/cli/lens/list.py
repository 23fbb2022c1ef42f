"""`footlight lens list`"""

from dataclasses import asdict
from pathlib import Path

import click

from footlight.cli.options import hint, json_option, notebook_option, print_json, terminal_width


@click.command("list")
@notebook_option
@json_option
def command(book: Path, as_json: bool) -> None:
    """All lenses, as last written.

    \b
    Example:
      footlight lens list
    """
    from footlight.actions.list_lenses import list_lenses
    from footlight.views.lenses import lens_lines

    listed = list_lenses(book)
    if as_json:
        print_json([asdict(lens) for lens in listed])
        return
    for line in lens_lines(listed, terminal_width()):
        click.echo(line)
    if not listed:
        hint("No lens yet: 'footlight lens add' writes one down.")
