"""`footlight session show`"""

from pathlib import Path

import click

from footlight.cli.options import json_option, notebook_option, print_json, terminal_width


@click.command("show")
@click.argument("name", required=False)
@notebook_option
@json_option
def command(name: str | None, book: Path, as_json: bool) -> None:
    """One evening by its NAME, or the last one: its runs and sheets, verdicts, and the baths in use.

    \b
    Example:
      footlight session show
      footlight session show "first portraits"
    """
    from footlight.actions.recall_session import recall_session
    from footlight.views import sessions

    session = recall_session(book, name)
    if as_json:
        print_json(sessions.as_dict(session))
        return
    for line in sessions.whole(session, terminal_width()):
        click.echo(line)
