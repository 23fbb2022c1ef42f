"""`footlight write`: a verdict, defects, a note about a sheet."""

import time
from pathlib import Path

import click

from footlight.cli.options import hint, json_option, notebook_option, print_json
from footlight.notebook.remarks import DEFECTS, VERDICTS


@click.command("write")
@click.argument("number", type=click.IntRange(1))
@click.argument("note", nargs=-1)
@click.option("--verdict", type=click.Choice(VERDICTS), help="How the print turned out.")
@click.option("--defect", "defects", type=click.Choice(DEFECTS), multiple=True, help="What went wrong.")
@click.option("--controller", help="Which controller's, if several have a sheet of that number.")
@notebook_option
@json_option
def command(
    number: int,
    note: tuple[str, ...],
    verdict: str | None,
    defects: tuple[str, ...],
    controller: str | None,
    book: Path,
    as_json: bool,
) -> None:
    """Write about sheet NUMBER: a verdict, defects by name, a NOTE in your words (no quotes needed).

    \b
    Example:
      footlight write 41 --verdict usable --defect mottle upper left, bath was tired
    """
    from footlight.errors import InputError
    from footlight.notebook import remarks, sheets
    from footlight.notebook.book import notebook

    entries = [("verdict", verdict)] if verdict else []
    entries += [("defect", defect) for defect in defects]
    entries += [("note", " ".join(note))] if note else []
    if not entries:
        raise InputError(f"sheet {number}: nothing to write; give a note, --verdict or --defect")
    with notebook(book, writing=True) as connection:
        sheet = sheets.find(connection, number, controller)
        remarks.write(connection, sheet["id"], entries, int(time.time()))
    if as_json:
        print_json({"sheet": number, "written": [{"kind": kind, "text": text} for kind, text in entries]})
        return
    for kind, text in entries:
        click.echo(f"sheet {number}, {kind}: {text}")
    hint("Take the last one back with 'footlight undo'.")
