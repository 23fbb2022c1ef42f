"""`footlight write`: a verdict, defects, a note about a sheet, its paper and a picture."""

import shlex
import sqlite3
import sys
import time
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import click

from footlight.cli.options import hint, json_option, notebook_option, print_json
from footlight.cli.types import FROM_1
from footlight.notebook.sheets.remarks import DEFECTS, VERDICTS

if TYPE_CHECKING:
    from footlight.notebook.sheets.entries import Entry


@click.command("write")
@click.argument("number", type=FROM_1)
@click.argument("note", nargs=-1)
@click.option("--verdict", type=click.Choice(VERDICTS), help="How the print turned out.")
@click.option("--defect", "defects", type=click.Choice(DEFECTS), multiple=True, help="What went wrong.")
@click.option("--paper", metavar="NAME", help="The batch that the sheet is of.")
@click.option(
    "--picture", type=click.Path(path_type=Path), help="A picture to keep with it: PNG, JPEG, TIFF."
)
@click.option("--controller", help="Which controller's, if several have a sheet of that number.")
@notebook_option
@json_option
def command(
    number: int,
    note: tuple[str, ...],
    verdict: str | None,
    defects: tuple[str, ...],
    paper: str | None,
    picture: Path | None,
    controller: str | None,
    book: Path,
    as_json: bool,
) -> None:
    """Write about sheet NUMBER: a verdict, defects by name, a NOTE in your words (no quotes needed).

    With the number alone, at a terminal, it asks: a letter and Enter answers, Enter alone leaves a thing as
    it is, and before anything is saved it shows what will be.

    \b
    Example:
      footlight write 41
      footlight write 41 --verdict usable --defect mottle upper left, bath was tired
      footlight write 41 --paper B
    """
    from footlight.errors import InputError
    from footlight.notebook.book import notebook
    from footlight.notebook.sheets import by_number, entries, pictures
    from footlight.notebook.stock import papers

    made = (pictures.make(picture),) if picture else ()
    told = entries.Entry(verdict or "", defects, " ".join(note), pictures=made)
    asks = told.is_empty and not paper
    if asks and not _at_terminal():
        raise InputError(
            f"sheet {number}: nothing to write; give a note, --verdict, --defect, --paper or --picture"
        )
    with notebook(book, writing=True, making=False) as connection:
        sheet = by_number.find(connection, number, controller)
        if paper:
            told = replace(told, batch=papers.find(connection, paper))
        told = _asked_and_saved(connection, sheet) if asks else _saved(connection, sheet, told)
    if not told.is_empty:
        _tell(number, told, as_json)


def _tell(number: int, told: "Entry", as_json: bool) -> None:
    if as_json:
        print_json(_as_dict(number, told))
        return
    for line in told.lines():
        click.echo(f"sheet {number}, {line}")
    hint("Take it back with 'footlight undo'.")


def _saved(connection: sqlite3.Connection, sheet: sqlite3.Row, told: "Entry") -> "Entry":
    from footlight.notebook.sheets import entries, pictures

    new = replace(told, pictures=pictures.without_kept(connection, sheet["id"], told.pictures))
    if len(new.pictures) < len(told.pictures):
        click.echo(f"sheet {sheet['number']}: this picture is kept already", err=True)
    if not new.is_empty:
        entries.write(connection, sheet, new, int(time.time()))
    return new


def _asked_and_saved(connection: sqlite3.Connection, sheet: sqlite3.Row) -> "Entry":
    """The answers, saved; an empty entry when nothing was to be saved."""
    told = _asked(connection, sheet)
    try:
        return _saved(connection, sheet, told)
    except sqlite3.DatabaseError:
        _keep_answers(sheet["number"], told)
        raise


def _keep_answers(number: int, told: "Entry") -> None:
    """What was answered shall not have to be thought of again because another program had the notebook."""
    click.echo("Not saved. To say the same again:", err=True)
    click.echo(f"  footlight write {number} {shlex.join(told.words())}", err=True)


def _at_terminal() -> bool:
    return sys.stdin.isatty() and sys.stdout.isatty()


def _asked(connection: sqlite3.Connection, sheet: sqlite3.Row) -> "Entry":
    from footlight.cli import guided
    from footlight.notebook.sheets import by_number, remarks
    from footlight.notebook.stock import papers
    from footlight.views.times import when_text

    written = remarks.of_sheet(connection, sheet["id"])
    paper = papers.of_sheet(connection, sheet["id"])
    runs = by_number.story(connection, sheet).runs
    last = f", {runs[-1].title or '?'}: {when_text(runs[-1].when)}" if runs else ""
    click.echo(f"sheet {sheet['number']}{last}. Enter leaves a thing as it is [in brackets].")
    return guided.ask(
        guided.Known(
            verdict=next((one.text for one in written if one.kind == "verdict"), ""),
            defects=tuple(one.text for one in written if one.kind == "defect"),
            paper=paper.name if paper else "",
            batches=tuple(papers.every(connection)),
        )
    )


def _as_dict(number: int, told: "Entry") -> dict[str, object]:
    return {
        "sheet": number,
        "written": [{"kind": kind, "text": text} for kind, text in told.remarks()],
        "paper": told.batch.name if told.batch else None,
        "pictures": [made.name for made in told.pictures],
    }
