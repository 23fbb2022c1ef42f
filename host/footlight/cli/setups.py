"""`footlight setups`: the history of light setups."""

from dataclasses import asdict
from pathlib import Path

import click

from footlight.cli.options import hint, json_option, notebook_option, print_json
from footlight.cli.types import FROM_1
from footlight.views.table import columns
from footlight.views.times import date_text


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
    from footlight.notebook.book import notebook
    from footlight.notebook.stock import light_setups

    with notebook(book, writing=False) as connection:
        listed = light_setups.history(connection, most if name is None else 100_000)
    listed = [change for change in listed if name in (None, change.setup)][:most]
    if as_json:
        print_json([asdict(change) for change in listed])
        return
    rows = [
        [
            date_text(change.done_unix_s),
            change.setup,
            change.before or "none",
            change.after,
            f"reading {change.reading_id}" if change.reading_id else "–",
            Path(change.file).name,
        ]
        for change in listed
    ]
    for line in columns(["written", "setup", "before", "after", "after strip", "file"], rows):
        click.echo(line)
    if not rows:
        hint("No reference was written yet: 'footlight accept' writes one after a strip.")
