"""`footlight write`: a verdict, defects, a note about a sheet, its paper and a picture."""

import shlex
import sys
import time
from pathlib import Path
from typing import TYPE_CHECKING

import click

from footlight.cli.options import hint, json_option, notebook_option, print_json
from footlight.cli.types import FROM_1
from footlight.notebook.sheets.remarks import DEFECTS, VERDICTS

if TYPE_CHECKING:
    from footlight.notebook.sheets.entries import SheetEntry


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
    from footlight.actions.write_sheet import small_picture
    from footlight.errors import InputError
    from footlight.notebook.sheets.entries import SheetEntry

    made = (small_picture(picture),) if picture else ()
    entry = SheetEntry(verdict or "", defects, " ".join(note), pictures=made)
    if entry.is_empty and not paper:
        if not _at_terminal():
            raise InputError(
                f"sheet {number}: nothing to write; give a note, --verdict, --defect, --paper or --picture"
            )
        entry = _asked_and_written(book, number, controller)
    else:
        entry = _written(book, number, entry, paper, controller)
    if not entry.is_empty:
        _tell(number, entry, as_json)


def _tell(number: int, entry: "SheetEntry", as_json: bool) -> None:
    if as_json:
        print_json(_as_dict(number, entry))
        return
    for line in entry.lines():
        click.echo(f"sheet {number}, {line}")
    hint("Take it back with 'footlight undo'.")


def _as_dict(number: int, entry: "SheetEntry") -> dict[str, object]:
    return {
        "sheet": number,
        "written": [{"kind": kind, "text": text} for kind, text in entry.remarks()],
        "paper": entry.batch.name if entry.batch else None,
        "pictures": [made.name for made in entry.pictures],
    }


def _written(
    book: Path, number: int, entry: "SheetEntry", paper: str | None, controller: str | None
) -> "SheetEntry":
    """What was new of it, written."""
    from footlight.actions.write_sheet import write_sheet

    new = write_sheet(book, number, entry, int(time.time()), paper=paper, controller=controller)
    if len(new.pictures) < len(entry.pictures):
        click.echo(f"sheet {number}: this picture is kept already", err=True)
    return new


def _at_terminal() -> bool:
    return sys.stdin.isatty() and sys.stdout.isatty()


def _asked_and_written(book: Path, number: int, controller: str | None) -> "SheetEntry":
    """The answers, written; an empty entry when nothing was to be saved."""
    from footlight.actions.write_sheet import standing
    from footlight.cli.write.questions import ask
    from footlight.errors import FootlightError
    from footlight.views.times import when_text

    known = standing(book, number, controller)
    run = known.last_run
    last = f", {run.title or '?'}: {when_text(run.when)}" if run else ""
    click.echo(f"sheet {number}{last}. Enter leaves a thing as it is [in brackets].")
    entry = ask(known)
    if entry.is_empty:
        return entry
    try:
        return _written(book, number, entry, None, controller)
    except FootlightError:
        # What was answered shall not have to be thought of again because another program had the notebook.
        click.echo("Not saved. To say the same again:", err=True)
        click.echo(f"  footlight write {number} {shlex.join(_words(entry))}", err=True)
        raise


def _words(entry: "SheetEntry") -> list[str]:
    """An entry as it is typed; a picture by its name alone."""
    verdict = ["--verdict", entry.verdict] if entry.verdict else []
    paper = ["--paper", entry.batch.name] if entry.batch else []
    return [
        *verdict,
        *(word for defect in entry.defects for word in ("--defect", defect)),
        *paper,
        *(word for made in entry.pictures for word in ("--picture", made.name)),
        *([entry.note] if entry.note else []),
    ]
