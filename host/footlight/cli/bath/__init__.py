"""`footlight bath`: the baths in the trays, from mixing to emptying."""

import click

from footlight.cli.table import Rows, Table

ROWS: Rows = {
    "mixed": ("mixed", "A bath, or several, were mixed"),
    "list": ("list_", "The baths in use: age, use, what is left"),
    "show": ("show", "One bath: every visit, and how its limits came about"),
    "found": ("found", "Clearing time, temperature, topped up, your own capacity, a note"),
    "bottled": ("bottled", "Out of the tray and into a bottle: its hours stop"),
    "poured": ("poured", "Back into the tray: its hours go on"),
    "emptied": ("emptied", "Thrown away"),
    "chart": ("chart", "Black, veil, mottle and clearing time against use and age"),
}


@click.group(cls=Table, rows=ROWS, package="footlight.cli.bath")
def command() -> None:
    """The baths in the trays: mixed when, used by which sheets, and how long they will last.

    A bath is called as the sequence calls its tray. Visits of sheets are never typed: they come home with the
    controller's journal (`footlight collect`).

    \b
        footlight bath mixed bleach --volume "1 l"
        footlight bath mixed developer bleach clear fixer     # each as the last time
        footlight bath list
        footlight bath emptied --all
    """
