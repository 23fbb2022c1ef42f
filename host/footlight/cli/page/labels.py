"""`footlight page labels`"""

import time
from pathlib import Path
from typing import TYPE_CHECKING

import click

from footlight.cli.options import notebook_option, replace_option
from footlight.cli.page import shared

if TYPE_CHECKING:
    from footlight.sequence import Sequence


@click.command("labels")
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--blank", is_flag=True, help="Leave every date to the pen, whatever the notebook says.")
@shared.paper_option
@shared.out_option
@replace_option
@notebook_option
def command(file: Path, blank: bool, paper: str, out: Path | None, replace: bool, book: Path) -> None:
    """Labels for the trays of sequence FILE: eight to a page, to be cut out.

    Place, tongs, name, strength, when it was mixed, signal word and hazards. A bath that the notebook knows
    has its date; others have a blank for the pen. They are reminders for your own room, no labels by law.

    \b
    Example:
      footlight page labels reversal-print.toml
      footlight page labels reversal-print.toml --blank --out labels.html
    """
    from footlight import sequence
    from footlight.cli.options import hint
    from footlight.report.pages import labels, labels_of

    loaded = sequence.load(file)
    made = labels_of.labels_of(loaded, {} if blank else _dates(loaded, book))
    target = out or Path(f"{file.stem}-labels.html")
    shared.write(target, labels.printed(made, loaded.name, paper), replace)
    dated = sum(bool(label.dated) for label in made)
    click.echo(f"{target}: {len(made)} labels, {dated} with the date of their bath")
    hint("Open it in a browser and print it, without headers and footers; cut along the dashes.")


def _dates(loaded: "Sequence", book: Path) -> dict[str, str]:
    """Tray -> when the bath that stands in it was mixed; nothing where there is no notebook yet."""
    from footlight.notebook.book import notebook
    from footlight.notebook.stock import baths, since
    from footlight.views.times import date_text

    if not book.exists():
        return {}
    with notebook(book, writing=False) as connection:
        known = baths.every(connection)
    now_s = int(time.time())
    standing = {tray.name: since.bath_at(known, tray.name, now_s) for tray in loaded.trays}
    return {name: f"{date_text(one.mixed_unix_s)}" for name, one in standing.items() if one is not None}
