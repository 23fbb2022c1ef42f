"""`footlight light strip`: plans of test strips."""

import click

from footlight.cli.table import Rows, Table

ROWS: Rows = {
    "second": ("second", "Second exposures about a centre, with zero band and anchor"),
    "crossed": ("crossed", "First exposures lengthwise, second exposures across: the normal target"),
    "plain": ("plain", "Equal steps in seconds"),
    "flash": ("flash", "Pre-flash, quick: where does paper begin to see"),
    "flash-bands": ("flash_bands", "Pre-flash, the deciding strip: bands under one shadow scale"),
    "dead-time": ("dead_time", "Many short exposures beside single ones"),
    "fog": ("fog", "Safelight fog test, before the first developer or after the bleach"),
}


@click.group(cls=Table, rows=ROWS, package="footlight.cli.light.strip")
def command() -> None:
    """Plan a test strip: what each band gets, what to add at each move, and where the blade stands.

    EXPOSURE is the centre of the strip and the light, as "6 s, 600 mm, f/11, lens 80 mm, dead 50 ms"; or the
    time alone, where --setup names a light setup of a light-setups file. --toml writes the strip as a
    sequence file, which the controller runs.

    For wet paper never lay a card on the sheet: rest an opaque blade across the tray rims, give its height
    over the sheet with --blade, and move it along the marks. Or cut the bleached sheet: --manner cut.
    """
