"""`footlight lamp`: the light sensor at the lamp house, and the lamps that it knows."""

import click

from footlight.cli.table import Rows, Table

ROWS: Rows = {
    "learn": ("learn", "Learn a lamp: dark, level of the warm lamp, warm-up"),
    "list": ("list", "What the sensor reads, and the lamps that it knows"),
    "colour": ("colour", "The sensor against paper, from two levels"),
    "forget": ("forget", "Know a lamp no more"),
    "sensor": ("sensor", "Say whether a sensor is fitted"),
}


@click.group(cls=Table, rows=ROWS, package="footlight.cli.lamp")
def command() -> None:
    """Light counted instead of timed, by a sensor at the lamp house.

    The controller then ends a light when its dose is there, however high the lamp stands; a third of a stop
    longer than planned is the cap. A lamp that was not learnt goes by seconds.

    \b
    Example:
      footlight lamp learn HEAD
      footlight lamp list
    """
