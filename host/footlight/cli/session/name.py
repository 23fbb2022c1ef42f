"""`footlight session name`"""

import sqlite3
import time
from dataclasses import asdict
from pathlib import Path

import click

from footlight import quantities as q
from footlight.cli.options import json_option, notebook_option, print_json
from footlight.errors import InputError
from footlight.views.times import date_text


@click.command("name")
@click.argument("name")
@click.argument("note", nargs=-1)
@click.option("--from", "begin", metavar="WHEN", help="From: '2026-03-01 18:00', 'yesterday'.")
@click.option("--to", "end", metavar="WHEN", help="To: '2026-03-01 23:00'.")
@notebook_option
@json_option
def command(
    name: str, note: tuple[str, ...], begin: str | None, end: str | None, book: Path, as_json: bool
) -> None:
    """Give the last evening the NAME, with a NOTE in your words; or the one that --from and --to tell.

    Without --to the name goes with the whole evening, also with runs still to come. The same name again
    replaces what was said under it.

    \b
    Example:
      footlight session name "first portraits"
      footlight session name "the long night" --from "2026-03-01 18:00" --to "2026-03-02 04:00" alone, cold
    """
    from footlight.notebook.book import notebook
    from footlight.notebook.sheets import sessions

    now_s = int(time.time())
    from_s = q.parse_moment(begin, "--from", now_s) if begin else None
    to_s = q.parse_moment(end, "--to", now_s, end=True) if end else None
    with notebook(book, writing=True, making=False) as connection:
        if from_s is None:
            from_s = _last(connection)
        named = sessions.Named(name, from_s, to_s, " ".join(note))
        sessions.name(connection, named, now_s)
        evening = sessions.find(connection, name)
    if as_json:
        print_json(asdict(evening))
        return
    count = f"{len(evening.runs)} run{'' if len(evening.runs) == 1 else 's'}"
    click.echo(f"session {name}: from {date_text(from_s)}{f' to {date_text(to_s)}' if to_s else ''}, {count}")


def _last(connection: sqlite3.Connection) -> int:
    from footlight.notebook.sheets import sessions

    evening = sessions.find(connection, None)
    if not evening.dated or evening.from_unix_s is None:
        raise InputError(
            "session: when the last evening was is not known, so no name goes with it; --from names another"
        )
    return evening.from_unix_s
