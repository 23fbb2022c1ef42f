"""`footlight search`: find what was written about sheets."""

from dataclasses import asdict
from pathlib import Path

import click

from footlight.cli.options import hint, json_option, notebook_option, print_json
from footlight.cli.types import FROM_1
from footlight.notebook.sheets.remarks import Found
from footlight.views.table import columns
from footlight.views.times import date_text


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
    from footlight.notebook.book import notebook
    from footlight.notebook.sheets import remarks

    with notebook(book, writing=False) as connection:
        found = remarks.search(connection, " ".join(words), most)
    if as_json:
        print_json([asdict(one) for one in found])
        return
    rows = [[_of(one), _written(one), one.kind, one.text] for one in found]
    for line in columns(["of", "written", "kind", "text"], rows):
        click.echo(line)
    if not found:
        hint(f"Nothing that stands holds '{' '.join(words)}'.")


def _of(one: Found) -> str:
    return one.about if one.sheet is None else f"sheet {one.sheet}"


def _written(one: Found) -> str:
    return "–" if one.written_unix_s is None else date_text(one.written_unix_s)
