"""`footlight search`: find what was written about sheets."""

from dataclasses import asdict
from pathlib import Path

import click

from footlight.cli.options import hint, json_option, notebook_option, print_json, terminal_width
from footlight.cli.types import FROM_1


@click.command("search")
@click.argument("words", nargs=-1, required=True)
@click.option("--last", "most", type=FROM_1, default=20, show_default=True, help="At most so many.")
@notebook_option
@json_option
def command(words: tuple[str, ...], most: int, book: Path, as_json: bool) -> None:
    """List what holds all the WORDS, or words that begin so, the newest first.

    Looked through: what was written about sheets, camera exposures (subject, light, filter), papers, baths,
    lenses, sessions, and the titles of sequences.

    \b
    Example:
      footlight search mottle
      footlight search tired bath
    """
    from footlight.actions.search_notebook import search_notebook
    from footlight.views import search

    hits = search_notebook(book, " ".join(words), most)
    if as_json:
        print_json([asdict(hit) for hit in hits])
        return
    for line in search.lines(hits, terminal_width()):
        click.echo(line)
    if not hits:
        hint(f"Nothing that stands holds '{' '.join(words)}'.")
