"""`footlight paper assign`"""

import time
from pathlib import Path

import click

from footlight.cli.options import json_option, notebook_option, print_json
from footlight.errors import field
from footlight.quantities.spans import format_spans, parse_spans


@click.command("assign")
@click.argument("name")
@click.argument("numbers", nargs=-1, required=True, metavar="NUMBER...")
@click.option("--controller", help="Which controller's, if several have sheets of these numbers.")
@notebook_option
@json_option
def command(name: str, numbers: tuple[str, ...], controller: str | None, book: Path, as_json: bool) -> None:
    """Say that sheets are of batch NAME: numbers, or from-to. All or none.

    \b
    Example:
      footlight paper assign A 30-41 45
    """
    from footlight.actions.note_paper import assign_paper

    sheets = parse_spans(numbers, field("numbers"))
    batch = assign_paper(book, name, sheets, controller, int(time.time()))
    if as_json:
        print_json({"paper": name, "sheets": sheets, "left": batch.left})
    else:
        click.echo(f"sheets {format_spans(sheets)}: paper {name}, {batch.left} left")
