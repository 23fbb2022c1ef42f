"""`footlight read flash-bands`"""

from pathlib import Path

import click

from footlight import quantities as q
from footlight.cli.read import doses, flash_shared, reports, scanned
from footlight.errors import InputError
from footlight.light.preflash import MOST_LOSS_D

_NAMED = ("black", "darker", "lighter")


@click.command("flash-bands")
@flash_shared.options(5)
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
    from footlight.strips import need

    need.scans()
    reports.check(given["report"], given["replace"], reports.PNG)
    from footlight.strips import preflash, reading
    from footlight.strips.scan.scan import load

    dosed = doses.of_flashes(given)
    options = reading.Options(**scanned.calibration(given))
    edges = doses.numbers(given["edges"], "--edges", 0, 2000)
    read = preflash.bands(
        load(scan, given["ppi"]),
        dosed.totals_s,
        _names(bands),
        options,
        edges,
        q.parse_density_d(loss, "--loss"),
    )
    flash_shared.tell(scan, read, dosed, given)


def _names(written: str) -> tuple[str, ...]:
    """The bands by name; those that are not used are counted."""
    parts = [part.strip() for part in written.split(",")]
    names = tuple(f"tone {place}" if part == "-" else part for place, part in enumerate(parts, start=1))
    used = tuple(part for part in parts if part != "-")
    if used != _NAMED:
        raise InputError(
            f"--bands: '{written}' must name black, darker and lighter in that order, '-' for others; for"
            " example 'black, darker, -, lighter'"
        )
    return names
