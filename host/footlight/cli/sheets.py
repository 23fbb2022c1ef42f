"""`footlight sheets`: the list of sheets."""

import sqlite3
import time
from dataclasses import asdict
from pathlib import Path

import click

from footlight.cli.options import hint, json_option, notebook_option, print_json
from footlight.cli.types import FROM_1
from footlight.notebook.sheets.remarks import DEFECTS, VERDICTS
from footlight.views.table import columns
from footlight.views.times import when_text


@click.command("sheets")
@click.option("--last", "most", type=FROM_1, default=20, show_default=True, help="So many, newest first.")
@click.option("--paper", metavar="NAME", help="Only those of this batch.")
@click.option("--verdict", type=click.Choice(VERDICTS), help="Only those that turned out so.")
@click.option("--defect", type=click.Choice(DEFECTS), help="Only those with this defect.")
@click.option("--session", metavar="NAME", help="Only those of this evening.")
@click.option(
    "--since", metavar="WHEN", help="Only those with a run since then, or maybe since: '2026-03-01'."
)
@notebook_option
@json_option
def command(most: int, book: Path, as_json: bool, **only: str | None) -> None:
    """List the sheets in the notebook, the newest first; of several filters, those that fit all.

    \b
    Example:
      footlight sheets --last 5
      footlight sheets --paper A --verdict good
      footlight sheets --defect mottle --since 2026-03-01
    """
    from footlight.notebook.book import notebook
    from footlight.notebook.sheets import listing

    with notebook(book, writing=False) as connection:
        if any(only.values()):
            listed, more = listing.some(connection, _wanted(connection, only), most)
            rest = "more fit: give a larger --last" if more else ""
        else:
            listed = listing.newest(connection, most)
            older = listing.count(connection) - len(listed)
            rest = f"{older} older ones: --last {older + len(listed)}" if older else ""
    if as_json:
        print_json([_as_dict(sheet) for sheet in listed])
        return
    _print(listed)
    if rest:
        click.echo(rest)
    if not listed:
        hint(
            "No sheet fits." if any(only.values()) else "No sheets yet: 'footlight collect' brings them home."
        )


def _wanted(connection: sqlite3.Connection, only: dict[str, str | None]):
    from footlight.notebook.sheets import listing, sessions
    from footlight.notebook.stock import papers
    from footlight.quantities.moment import parse_moment

    paper, session, since = only["paper"], only["session"], only["since"]
    return listing.Wanted(
        paper=papers.find(connection, paper).id if paper else None,
        session=listing.runs_as_text(sessions.find(connection, session).runs) if session else None,
        defect=only["defect"],
        verdict=only["verdict"],
        since_unix_s=parse_moment(since, "--since", int(time.time())) if since else None,
    )


def _print(listed) -> None:
    """Columns; those that no sheet has anything in are left out."""
    head = ["sheet", "last run", "sequences", "ended", "paper", "verdict", "defects", "controller"]
    # A sheet whose journal is not home yet is of no controller that is known.
    several = len({sheet.controller for sheet in listed} - {""}) > 1
    rows = [
        [
            f"{sheet.number}",
            when_text(sheet.when) if sheet.titles else "in the camera",
            " + ".join(sheet.titles),
            sheet.ended or ("not ended" if sheet.titles else "–"),
            sheet.paper,
            sheet.verdict,
            ", ".join(sheet.defects),
            sheet.controller if several else "",
        ]
        for sheet in listed
    ]
    kept = [index for index in range(len(head)) if index < 4 or any(row[index] for row in rows)]
    for line in columns([head[index] for index in kept], [[row[index] for index in kept] for row in rows]):
        click.echo(line)


def _as_dict(sheet) -> dict[str, object]:
    return {
        "sheet": sheet.number,
        "controller": sheet.controller,
        "epoch": sheet.epoch,
        **asdict(sheet.when),
        "sequences": sheet.titles,
        "ended": sheet.ended,
        "paper": sheet.paper or None,
        "verdict": sheet.verdict or None,
        "defects": sheet.defects,
    }
