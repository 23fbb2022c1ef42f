"""`footlight light flash`: decisions about pre-flash."""

import click

from footlight.cli.table import Rows, Table

ROWS: Rows = {
    "threshold": ("threshold", "The first flash that paper sees, from the quick strip"),
    "decide": ("decide", "The largest flash that keeps the black, from the deciding strip"),
    "gain": ("gain", "The speed that a flash gains, from two shadow scales"),
}


@click.group(cls=Table, rows=ROWS, package="footlight.cli.light.flash")
def command() -> None:
    """Pre-flash for a positive: it costs black and opens shadows.

    Strips are planned with `footlight light strip flash` and `flash-bands`. From a flash chosen at one place
    to its time at another: `footlight light time`. A flash belongs to its lamp and filter.
    """
