"""`footlight page`: what is printed on paper."""

import click

from footlight.cli.table import Table

COMMANDS = {
    "card": ("card", "Wall card of a sequence for the darkroom"),
    "labels": ("labels", "Labels for the trays and baths of a sequence"),
    "lens": ("lens", "Lens tables: true stops and bellows factors"),
    "sheet": ("sheet", "Report of one print: picture, curve, times"),
}


@click.group(cls=Table, rows=COMMANDS, package="footlight.cli.page")
def command() -> None:
    """Pages to print: each one HTML file that needs no other, black on white, for A4 and Letter.

    Open it in a browser and print it without headers and footers. Nothing in them is red: it would vanish
    under a red lamp.
    """
