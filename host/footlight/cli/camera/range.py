"""`footlight camera range`"""

import click

from footlight import quantities as q
from footlight.camera.subject import range_stops
from footlight.cli.options import json_option, print_json


@click.command
@click.argument("iso_range", metavar="R")
@json_option
def command(iso_range: str, as_json: bool) -> None:
    """How many stops of subject, from white to black, an ISO range R holds.

    \b
        footlight camera range 90
    """
    value = q.parse_number(iso_range.removeprefix("R").strip(), "R")
    stops = range_stops(value)
    if as_json:
        print_json({"iso_range": value, "stops": round(stops, 4)})
        return
    click.echo(f"R {value:g} holds {stops:.2f} stops from white to black")
