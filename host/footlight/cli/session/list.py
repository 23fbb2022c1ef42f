"""`footlight session list`"""

from dataclasses import asdict
from pathlib import Path

import click

from footlight.cli.options import hint, json_option, notebook_option, print_json, terminal_width
from footlight.cli.types import FROM_1


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
    from footlight.actions.recall_session import list_sessions
    from footlight.views.sessions import session_lines

    listed = list_sessions(book, most)
    if as_json:
        print_json([asdict(night.evening) | {"sheets": night.sheets} for night in listed])
        return
    for line in session_lines(listed, terminal_width()):
        click.echo(line)
    if not listed:
        hint("No evening yet: 'footlight collect' brings runs home.")
