"""`footlight read flash`"""

from pathlib import Path

import click

from footlight import quantities as q
from footlight.cli.read import doses, flash_shared, reports, scanned


@click.command("flash")
@flash_shared.options(7)
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
    from footlight.strips import need

    need.scans()
    reports.check(given["report"], given["replace"], reports.PNG)
    from footlight.strips import preflash, reading
    from footlight.strips.scan.scan import load

    dosed = doses.of_flashes(given)
    options = reading.Options(**scanned.calibration(given))
    edges = doses.numbers(given["edges"], "--edges", 0, 2000)
    read = preflash.threshold(
        load(scan, given["ppi"]), dosed.totals_s, options, edges, q.parse_density_d(above, "--above")
    )
    flash_shared.tell(scan, read, dosed, given)
