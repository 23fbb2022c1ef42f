"""`footlight bath poured`"""

from pathlib import Path

import click

from footlight.cli.bath import options


@click.command
@options.leaving
def command(names: tuple[str, ...], every: bool, at_s: int, book: Path, as_json: bool) -> None:
    """Baths were poured back into their trays: their hours go on.

    A sheet that visits a bath counts against it whether or not this was written.

    \b
        footlight bath poured fixer
    """
    options.leave("poured", names, every, at_s, book, as_json)
