"""`footlight session list`"""

from dataclasses import asdict
from itertools import islice
from pathlib import Path

import click

from footlight.cli.options import hint, json_option, notebook_option, print_json
from footlight.cli.session.show import began
from footlight.cli.types import FROM_1
from footlight.quantities.spans import format_spans
from footlight.views.table import columns


@click.command("list")
@click.option("--last", "most", type=FROM_1, default=10, show_default=True, help="So many, newest first.")
@notebook_option
@json_option
def command(most: int, book: Path, as_json: bool) -> None:
    """Evenings with the sheets that were in the controller's hands, the newest first.

    \b
    Example:
      footlight session list --last 3
    """
    from footlight.notebook.book import notebook
    from footlight.notebook.sheets import sessions

    with notebook(book, writing=False) as connection:
        listed = list(islice(sessions.evenings(connection), most))
        numbers = [
            sorted({number for sheets in sessions.sheets_of(connection, one).values() for number in sheets})
            for one in listed
        ]
    if as_json:
        print_json([asdict(one) | {"sheets": found} for one, found in zip(listed, numbers, strict=True)])
        return
    rows = [
        [began(one), one.name or "–", f"{len(one.runs)}", format_spans(found)]
        for one, found in zip(listed, numbers, strict=True)
    ]
    for line in columns(["began", "name", "runs", "sheets"], rows):
        click.echo(line)
    if not rows:
        hint("No evening yet: 'footlight collect' brings runs home.")
