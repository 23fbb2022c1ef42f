"""`footlight session show`"""

import sqlite3
import time
from dataclasses import asdict, dataclass
from pathlib import Path

import click

from footlight.cli.options import json_option, notebook_option, print_json
from footlight.notebook.dates import When
from footlight.notebook.sheets.sessions import Evening
from footlight.notebook.stock.baths import Bath
from footlight.quantities.spans import format_spans
from footlight.views.table import columns
from footlight.views.times import date_text, when_text


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
    from footlight.notebook.book import notebook

    with notebook(book, writing=False) as connection:
        shown = _looked_up(connection, name)
    if as_json:
        print_json(_as_dict(shown))
        return
    click.echo(f"{shown.evening.name or 'Evening'}: {_span(shown.evening)}")
    if shown.evening.note:
        click.echo(shown.evening.note)
    for line in columns(
        ["began", "sequence", "sheets", "ended", "verdict"], [_row(run) for run in shown.runs]
    ):
        click.echo(line)
    if not shown.runs:
        click.echo("No run with a date began in it.")
    for bath in shown.baths:
        made = bath.formula or bath.made_from or f"{bath.volume_ml:g} mL"
        click.echo(f"{bath.name}: {made}, mixed {date_text(bath.mixed_unix_s)}")


@dataclass(frozen=True)
class _Run:
    """A run of the evening: what the notebook has of it, its sheets, and (number, verdict) of those that have
    one."""

    known: sqlite3.Row
    numbers: list[int]
    verdicts: list[tuple[int, str]]


@dataclass(frozen=True)
class _Shown:
    evening: Evening
    runs: list[_Run]
    baths: list[Bath]


def _looked_up(connection: sqlite3.Connection, name: str | None) -> _Shown:
    from footlight.notebook.sheets import by_number, sessions

    evening = sessions.find(connection, name)
    numbers = sessions.sheets_of(connection, evening)
    runs = [
        _Run(by_number.run_of(connection, run), numbers[run], by_number.verdicts_of_run(connection, run))
        for run in evening.runs
    ]
    return _Shown(evening, runs, sessions.baths_in(connection, evening))


def _as_dict(shown: _Shown) -> dict[str, object]:
    return asdict(shown.evening) | {
        "runs": [dict(run.known) | {"sheets": run.numbers} for run in shown.runs],
        "verdicts": {number: text for run in shown.runs for number, text in run.verdicts},
        "baths": [asdict(bath) for bath in shown.baths],
    }


def _row(run: _Run) -> list[str]:
    return [
        _clock(run.known) or f"run {run.known['run']}",
        run.known["title"] or "?",
        format_spans(run.numbers),
        run.known["ended"] or "not ended",
        # A batch was not yet printed.
        run.verdicts[0][1] if run.verdicts and len(run.numbers) == 1 else "–",
    ]


def _clock(run: sqlite3.Row) -> str:
    """Its time of day, '' where it is not known."""
    known = run["from_unix_s"] is not None and run["from_unix_s"] == run["to_unix_s"]
    return time.strftime("%H:%M", time.localtime(run["from_unix_s"])) if known else ""


def began(evening: Evening) -> str:
    """When an evening began, or between what that was."""
    if evening.dated and evening.from_unix_s is not None:
        return date_text(evening.from_unix_s)
    return when_text(When(evening.from_unix_s, evening.to_unix_s))


def _span(evening: Evening) -> str:
    from_s, to_s = evening.from_unix_s, evening.to_unix_s
    if not evening.dated or from_s is None or to_s is None:
        return began(evening)
    same_day = time.localtime(from_s)[:3] == time.localtime(to_s)[:3]
    end = time.strftime("%H:%M", time.localtime(to_s)) if same_day else date_text(to_s)
    return date_text(from_s) if from_s == to_s else f"{date_text(from_s)} to {end}"
