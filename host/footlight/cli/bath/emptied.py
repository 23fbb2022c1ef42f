"""`footlight bath emptied`"""

from pathlib import Path

import click

from footlight.cli.bath import options


@click.command
@options.leaving
def command(names: tuple[str, ...], every: bool, at_s: int, book: Path, as_json: bool) -> None:
    """Baths were thrown away: nothing stands in their trays any more.

    Used bleach and used fixer carry silver: to the collection, each in a vessel of its own, and bleach only
    when it has stopped fizzing (docs/chemistry.md).

    \b
        footlight bath emptied bleach
        footlight bath emptied --all
    """
    options.leave("emptied", names, every, at_s, book, as_json)
