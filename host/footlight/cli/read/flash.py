"""`footlight read flash`"""

from pathlib import Path

import click

from footlight import quantities as q
from footlight.cli.options import json_option, print_json, say, terminal_width
from footlight.cli.read import options
from footlight.errors import field


@click.command("flash")
@options.flash(7)
@json_option
@click.option("--above", metavar="DENSITY", default="0.04 D", show_default=True, help="What counts as seen.")
def command(scan: Path, above: str, **given) -> None:
    """Read the quick pre-flash strip: the flash at which paper begins to see, with its interval.

    The strip is that of 'footlight light strip flash': flashes in half stops, first developer and fix, no
    reversal. The advice is the flash that paper surely does not see; the deciding strip may say more.

    \b
        footlight read sample flash.tif --kind flash
        footlight read flash flash.tif --centre "2 s" \\
            --tablet "0.06, 0.2, 0.35, 0.5, 0.7, 0.9, 1.1, 1.3, 1.5, 1.7, 1.9, 2.1"
        footlight read flash flash.tif --sheet 12
    """
    from footlight.actions.read_flash import FlashStrip, read_threshold
    from footlight.views import strip_readings
    from footlight.written import scans

    strip = FlashStrip(
        options.scan_of(scan, given),
        options.flashes_of(given),
        scans.edges_mm(given["edges"]),
        options.report_of(given),
        options.keeping_of(given),
    )
    read = read_threshold(strip, q.parse_density_d(above, field("above")))
    if given["as_json"]:
        print_json(strip_readings.as_dict(read.reading))
        return
    taken = strip_readings.taken_lines(read.doses.taken)
    say([*strip_readings.flash_lines(read.reading, terminal_width()), *taken], read.reading.notes)
    say(strip_readings.kept_lines(read.kept, given["sheet"]))
