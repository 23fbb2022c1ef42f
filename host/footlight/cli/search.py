"""`footlight search`: find what was written about sheets."""

from pathlib import Path

import click

from footlight.cli.layout import columns, date_text
from footlight.cli.options import json_option, notebook_option, print_json


@click.command("search")
@click.argument("words", nargs=-1, required=True)
@click.option(
    "--last", "most", type=click.IntRange(1), default=20, show_default=True, help="At most so many."
)
@notebook_option
@json_option
def command(words: tuple[str, ...], most: int, book: Path, as_json: bool) -> None:
    """List what was written about sheets and holds all the WORDS, or words that begin so, newest first.

    \b
    Example:
      footlight search mottle
      footlight search tired bath
    """
    from footlight.notebook import remarks
    from footlight.notebook.book import notebook

    with notebook(book, writing=False) as connection:
        found = remarks.search(connection, " ".join(words), most)
    if as_json:
        print_json([{"sheet": one.sheet, "kind": one.kind, "text": one.text} for one in found])
        return
    rows = [[f"{one.sheet}", date_text(one.written_unix_s), one.kind, one.text] for one in found]
    for line in columns(["sheet", "written", "kind", "text"], rows):
        click.echo(line)
