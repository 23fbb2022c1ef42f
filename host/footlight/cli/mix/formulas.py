"""`footlight mix formulas`"""

import click

from footlight.chemistry import shelf
from footlight.cli.options import json_option, print_json, say


@click.command
@click.argument("name", required=False)
@json_option
def command(name: str | None, as_json: bool) -> None:
    """The formulas that come along; with NAME the file itself, to copy and change.

    They are invented round numbers within common practice: starting points, no more.

    \b
        footlight mix formulas
        footlight mix formulas peroxide-bleach > my-bleach.toml
    """
    if as_json:
        print_json({"name": name, "toml": shelf.text(name)} if name else shelf.NAMES)
    elif name:
        click.echo(shelf.text(name), nl=False)
    else:
        say(f"{one:<18}{what}" for one, what in shelf.NAMES.items())
