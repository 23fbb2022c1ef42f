"""`footlight light`: what the light does, and for how long it should."""

import click

from footlight.cli.table import Rows, Table

ROWS: Rows = {
    "time": ("time", "The time for another height, stop, lens, filter, from one found good"),
    "stop": ("stop", "Which stop gives a time"),
    "height": ("height", "Which height gives a time"),
    "given": ("given", "What a given time would do, against the one found good"),
    "bigger": ("bigger", "The same exposure for another sheet size"),
    "even": ("even", "Fall-off over the sheet, and the height for a tolerance"),
    "cover": ("cover", "Does the light cover the sheet"),
    "datum": ("datum", "Where the scale on the column begins: two-height test"),
    "dose": ("dose", "Lux-seconds: measure a dose, and give it elsewhere"),
    "strip": ("strip", "Plan a test strip: times, moves, blade marks"),
    "flash": ("flash", "Pre-flash: threshold, decision, speed gained"),
    "fog": ("fog", "How long a safelight is safe, from a fog test"),
    "dead-time": ("dead_time", "Dead time from one long exposure against many short ones"),
    "relay": ("relay", "The shortest time that a relay can do soundly"),
    "mains": ("mains", "What a change of mains voltage costs"),
    "warm-up": ("warm_up", "How a lamp settles, and what a cold start costs"),
    "long": ("long", "Long exposures: the exponent from your own strips"),
    "tolerances": ("tolerances", "What is taken for granted about measuring, and why"),
}


@click.group(cls=Table, rows=ROWS, package="footlight.cli.light")
def command() -> None:
    """Times, heights, stops, strips and doses of the light.

    Quantities are written with their units. An exposure found good is one text, parts in any order:

    \b
        "6 s, 620 mm, f/11"
        "6 s, 620 mm, f/11, lens 80 mm, nd 0.3, filter yellow, lamp head"
        "6 s, 900 mm, source 60 mm"        a bare lamp, with the size of its opening
    """
