"""`footlight history`: the acts, also those that were taken back."""

from dataclasses import asdict
from pathlib import Path

import click

from footlight.cli.layout import columns, date_text
from footlight.cli.options import hint, json_option, notebook_option, print_json


@click.command("history")
@click.option(
    "--last", "most", type=click.IntRange(1), default=20, show_default=True, help="So many, newest first."
)
@notebook_option
@json_option
def command(most: int, book: Path, as_json: bool) -> None:
    """What each command entered into the notebook, the newest first, and what of it was taken back when.

    \b
    Example:
      footlight history --last 5
    """
    from footlight.notebook import acts
    from footlight.notebook.book import notebook

    with notebook(book, writing=False) as connection:
        listed = acts.recent(connection, most)
    if as_json:
        print_json([asdict(act) for act in listed])
        return
    rows = [[f"{act.id}", date_text(act.done_unix_s), _said(act.said, act.undone_unix_s)] for act in listed]
    for line in columns(["act", "entered", "what"], rows):
        click.echo(line)
    if not rows:
        hint("Nothing was entered yet. What controllers recorded is listed by 'footlight sheets'.")


def _said(said: str, undone_unix_s: int | None) -> str:
    return said if undone_unix_s is None else f"{said} (taken back {date_text(undone_unix_s)})"
