"""`footlight bath bottled`"""

from pathlib import Path

import click

from footlight.cli.bath import options


@click.command
@options.leaving
def command(names: tuple[str, ...], every: bool, at_s: int, book: Path, as_json: bool) -> None:
    """Baths were poured into bottles, to be used again: their hours in the open tray stop.

    Peroxide bleach never goes into a sealed bottle: gas builds up until it bursts. Under a cap that vents,
    upright; better mix it fresh. Used bleach never goes back to the stock.

    \b
        footlight bath bottled fixer
        footlight bath bottled --all --at "23:10"
    """
    options.leave("bottled", names, every, at_s, book, as_json)
