"""`footlight bath poured`"""

from pathlib import Path

import click

from footlight.cli.bath import options


@click.command
@options.leaving
def command(names: tuple[str, ...], every: bool, moment: str, book: Path, as_json: bool) -> None:
    """Baths were poured back into their trays: their hours go on.

    A sheet that visits a bath counts against it whether or not this was written.

    \b
        footlight bath poured fixer
    """
    from footlight.cli.bath.leaving import leave

    leave("poured", names, every, moment, book, as_json)
