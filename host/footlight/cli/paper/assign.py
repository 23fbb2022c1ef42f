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
    from footlight.notebook.acts import act
    from footlight.notebook.book import notebook
    from footlight.notebook.sheets import by_number
    from footlight.notebook.stock import papers

    wanted = parse_spans(numbers, field("numbers"))
    with notebook(book, writing=True, making=False) as connection:
        batch = papers.find(connection, name)
        found = [by_number.find(connection, number, controller)["id"] for number in wanted]
        with act(connection, f"sheets {format_spans(wanted)}: paper {name}", int(time.time())) as act_id:
            papers.put(connection, act_id, found, batch)
        batch = papers.find(connection, name)
    if as_json:
        print_json({"paper": name, "sheets": wanted, "left": batch.left})
    else:
        click.echo(f"sheets {format_spans(wanted)}: paper {name}, {batch.left} left")
