"""`footlight lamp colour`"""

import click

from footlight.cli.options import json_option, port_option, print_json
from footlight.cli.types import Quantity


@click.command("colour")
@click.argument("lamp")
@click.argument("high", type=Quantity("parse_seconds"))
@click.argument("low", type=Quantity("parse_seconds"))
@click.option(
    "--levels", nargs=2, type=float, required=True, metavar="HIGH LOW", help="Stops from the learnt level."
)
@port_option
@json_option
def command(
    lamp: str, high: float, low: float, levels: tuple[float, float], port: str | None, as_json: bool
) -> None:
    """How the sensor of a LAMP sees against paper: two counted doses, HIGH and LOW, that gave the same tone.

    Make a strip with the lamp as it is, and one with its mains dimmed by a tenth; 'footlight sheet' tells the
    level of each. A sensor that sees as paper does gives the same dose twice.

    \b
    Example:
      footlight lamp colour HEAD "8.0 s" "8.4 s" --levels 0 -0.4
    """
    from footlight.actions.know_lamps import match_colour
    from footlight.views.lamps import power_lines

    matched = match_colour(lamp, high, low, levels, port)
    if as_json:
        power = matched.power
        print_json({"lamp": lamp, "power": power.power, "uncertainty": power.uncertainty})
        return
    click.echo("\n".join(power_lines(matched)))
