"""`footlight read flash-bands`"""

from pathlib import Path

import click

from footlight import quantities as q
from footlight.cli.options import json_option, print_json, say, terminal_width
from footlight.cli.read import options
from footlight.errors import field
from footlight.light.preflash import MOST_LOSS_D


@click.command("flash-bands")
@options.flash(5)
@json_option
@click.option(
    "--bands",
    default="black, darker, lighter",
    show_default=True,
    help="Tones of the shadow scale, darkest first; '-' for one that is not used.",
)
@click.option("--loss", metavar="DENSITY", default=f"{MOST_LOSS_D} D", show_default=True,
              help="Black that may be lost.")  # fmt: skip
def command(scan: Path, bands: str, loss: str, **given) -> None:
    """Read the deciding pre-flash strip: the largest flash that surely keeps the black and opens shadows.

    The strip is that of 'footlight light strip flash-bands': flashes in half stops, one shadow scale exposed
    in the camera across them, full reversal. Every flash is judged with the doubt of the scan against it.

    \b
        footlight read sample bands.tif --kind flash-bands
        footlight read flash-bands bands.tif --centre "2 s" \\
            --tablet "0.06, 0.2, 0.35, 0.5, 0.7, 0.9, 1.1, 1.3, 1.5, 1.7, 1.9, 2.1"
    """
    from footlight.actions.read_flash import FlashStrip, read_flash_bands
    from footlight.views import strip_readings
    from footlight.written import scans

    strip = FlashStrip(
        options.scan_of(scan, given),
        options.flashes_of(given),
        scans.edges_mm(given["edges"]),
        options.report_of(given),
        options.keeping_of(given),
    )
    names = scans.flash_bands(bands, field("bands"))
    read = read_flash_bands(strip, names, q.parse_density_d(loss, field("loss")))
    if given["as_json"]:
        print_json(strip_readings.as_dict(read.reading))
        return
    taken = strip_readings.taken_lines(read.doses.taken)
    say([*strip_readings.flash_lines(read.reading, terminal_width()), *taken], read.reading.notes)
    say(strip_readings.kept_lines(read.kept, given["sheet"]))
