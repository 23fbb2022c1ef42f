"""`footlight camera`: exposures, bellows and lens cards of the view camera."""

import click

from footlight.cli.table import Rows, Table

ROWS: Rows = {
    "time": ("time", "The time, from a meter reading, at an index that no meter has"),
    "bellows": ("bellows", "What a racked-out lens costs: factor, stops, new time"),
    "opening": ("opening", "The true f-number of an opening, from its diameter and the draw"),
    "card": ("card", "A table of a lens for the camera case: openings, true stops by draw"),
    "light": ("light", "Exposure value, lux and luminance, one from the other"),
    "range": ("range", "How many stops of subject an ISO range holds"),
    "tolerances": ("tolerances", "What is taken for granted about metering, and why"),
}


@click.group(cls=Table, rows=ROWS, package="footlight.cli.camera")
def command() -> None:
    """Exposures, bellows and lens cards of the view camera.

    Quantities are written with their units: "EV 12", "20000 lx", "500 cd/m2", "f/22", "300 mm".
    Your own lenses, subject lights and filters live in one file:

    \b
        [lens."old portrait lens"]
        focal = "210 mm"
        stops = ["f/5.6", "f/8", "f/11"]
        openings = { "f/8" = "25.9 mm" }        # where measured, through the front
        draws = ["210 mm", "260 mm", "420 mm"]

    \b
        [light."open shade"]
        more = "-1/3 stop"      # exposure, against the light of your index
        contrast = -10          # change of the paper's ISO range R
        known = "measured"      # or "stated"

    \b
        [filter."yellow"]
        more = "1 1/3 stop"
        contrast = 20
    """
