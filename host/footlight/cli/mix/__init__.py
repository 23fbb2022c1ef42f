"""`footlight mix`: what to pour and weigh, and what it does to you."""

import click

from footlight.cli.table import Rows, Table

ROWS: Rows = {
    "dilute": ("dilute", "Stock and water for a volume, or from what is left in the bottle"),
    "which": ("which", "Which dilution is this? From odd amounts"),
    "tray": ("tray", "Volume of a tray from area and depth; does a volume fit"),
    "peroxide": ("peroxide", "Peroxide of a wanted strength from a stock"),
    "strength": ("strength", "What strength a mix of peroxide really has"),
    "citric": ("citric", "Citric acid: grams of either form, level spoons"),
    "bath": ("bath", "A whole bath formula, for a volume"),
    "formulas": ("formulas", "The formulas that come along; copy one to change it"),
    "capacity": ("capacity", "How many sheets a bath still has in it"),
    "hazards": ("hazards", "What a stock or a bath asks for: wear, air, waste, rules"),
}


@click.group(cls=Table, rows=ROWS, package="footlight.cli.mix")
def command() -> None:
    """What to pour and weigh, and what it does to you.

    Dilutions the trade's way: "1 + 9" is one part and nine of water; "1 in 10" the same, one part made up to
    ten. "1:9" is read both ways and is asked about. Strengths say by what: "35 % w/w", "30 % w/v", "110 vol".
    """
