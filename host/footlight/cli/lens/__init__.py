"""`footlight lens`: your lenses, kept in the notebook."""

import click

from footlight.cli.table import Rows, Table

ROWS: Rows = {
    "add": ("add", "Write down a lens, or write it anew"),
    "list": ("list", "All lenses"),
    "card": ("card", "Openings and true stops of one, by draw"),
}


@click.group(cls=Table, rows=ROWS, package="footlight.cli.lens")
def command() -> None:
    """Lenses of camera and enlarger. 'footlight expose --lens NAME' then knows focal length and true stops.

    \b
    Example:
      footlight lens add "portrait lens" --focal "210 mm" --widest f/4.5 --true "f/32 = 29.4"
      footlight lens list
    """
