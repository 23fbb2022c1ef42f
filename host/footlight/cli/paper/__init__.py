"""`footlight paper`: batches of paper, what was found out about them, and what is left."""

import click

from footlight.cli.table import Rows, Table

ROWS: Rows = {
    "add": ("add", "Write down a batch: paper, size, sheets bought"),
    "list": ("list", "All batches and what is left of each"),
    "show": ("show", "One batch: what was found out about it, and its sheets"),
    "found": ("found", "Write down its speed, pre-flash threshold, second exposure, or a note"),
    "spoiled": ("spoiled", "Count off sheets that have no number: fogged, cut up for strips"),
    "use": ("use", "From now on, sheets that come home are of this batch"),
    "assign": ("assign", "Say of sheets already home which batch they are of"),
}


@click.group(cls=Table, rows=ROWS, package="footlight.cli.paper")
def command() -> None:
    """Batches of paper: a box, or boxes of one emulsion number, under a name of your own.

    Sheets that 'footlight collect' brings home are taken to be of the batch in use for their size; it says
    so, and 'footlight write 41 --paper B' corrects one.

    \b
    Example:
      footlight paper add A "baryta, glossy, grade 2" --size 8x10 --sheets 25
      footlight paper found A --speed 4 --pre-flash "-1/3 stop"
      footlight paper list
    """
