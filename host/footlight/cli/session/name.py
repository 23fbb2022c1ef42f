"""`footlight session name`"""

import time
from dataclasses import asdict
from pathlib import Path

import click

from footlight.cli.options import json_option, notebook_option, print_json
from footlight.cli.types import Moment


@click.command("name")
@click.argument("name")
@click.argument("note", nargs=-1)
@click.option(
    "--from", "from_s", metavar="WHEN", type=Moment(), help="From: '2026-03-01 18:00', 'yesterday'."
)
@click.option("--to", "to_s", metavar="WHEN", type=Moment(end=True), help="To: '2026-03-01 23:00'.")
@notebook_option
@json_option
def command(
    name: str, note: tuple[str, ...], from_s: int | None, to_s: int | None, book: Path, as_json: bool
) -> None:
    """Give the last evening the NAME, with a NOTE in your words; or the one that --from and --to tell.

    Without --to the name goes with the whole evening, also with runs still to come. The same name again
    replaces what was said under it.

    \b
    Example:
      footlight session name "first portraits"
      footlight session name "the long night" --from "2026-03-01 18:00" --to "2026-03-02 04:00" alone, cold
    """
    from footlight.actions.name_session import name_session
    from footlight.views.times import date_text

    named, evening = name_session(book, name, " ".join(note), from_s, to_s, int(time.time()))
    if as_json:
        print_json(asdict(evening))
        return
    until = f" to {date_text(to_s)}" if to_s else ""
    count = f"{len(evening.runs)} run{'' if len(evening.runs) == 1 else 's'}"
    click.echo(f"session {name}: from {date_text(named.from_unix_s)}{until}, {count}")
