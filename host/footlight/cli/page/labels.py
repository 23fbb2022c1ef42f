"""`footlight page labels`"""

import time
from pathlib import Path

import click

from footlight.cli.options import notebook_option, replace_option
from footlight.cli.page import options


@click.command("labels")
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--blank", is_flag=True, help="Leave every date to the pen, whatever the notebook says.")
@options.paper_option
@options.out_option
@replace_option
@notebook_option
def command(file: Path, blank: bool, paper: str, out: Path | None, replace: bool, book: Path) -> None:
    """Labels for the trays of sequence FILE: eight to a page, to be cut out.

    Place, tongs, name, strength, when it was mixed, signal word and hazards. A bath that the notebook knows
    has its date and its own make-up, whatever FILE says; others have a blank for the pen. They are reminders
    for your own room, no labels by law.

    \b
    Example:
      footlight page labels reversal-print.toml
      footlight page labels reversal-print.toml --blank --out labels.html
    """
    from footlight.actions.print_labels import print_labels
    from footlight.cli.options import hint

    labels = print_labels(file, book, paper, int(time.time()), undated=blank)
    target = out or Path(f"{file.stem}-labels.html")
    options.write(target, labels.html, replace)
    for mismatch in labels.mismatches:
        click.echo(f"! {mismatch}", err=True)
    click.echo(f"{target}: {labels.labels} labels, {labels.dated} with the date of their bath")
    hint("Open it in a browser and print it, without headers and footers; cut along the dashes.")
