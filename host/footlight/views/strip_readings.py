"""What the two pre-flash readings have in common: options of the scan, keeping, printing."""

from collections.abc import Callable
from pathlib import Path

import click
from msgspec import structs

from footlight import quantities as q
from footlight.cli.options import json_option, say
from footlight.cli.read import doses, keeping, reports, scanned
from footlight.notebook.sheets import readings
from footlight.views.table import columns


def options(count: int) -> Callable[[Callable], Callable]:
    """SCAN, where the flashes come from, and how the scan is to be read."""

    def add(function: Callable) -> Callable:
        for option in reversed(
            (
                click.argument("scan", type=click.Path(path_type=Path)),
                doses.flash_options(count),
                *scanned.OPTIONS,
                click.option("--edges", metavar="LIST", help="Inner edges of the steps by hand, mm."),
                reports.option("Write the page: .png."),
                json_option,
            )
        ):
            function = option(function)
        return function

    return add


def tell(scan: Path, read, dosed: doses.Dosed, given: dict) -> None:
    """Keep it where that is wanted, and print it. read: a `strips.preflash.FlashRead`."""
    from dataclasses import replace

    import msgspec

    from footlight.strips.show import flash_picture

    taken = dosed.given.taken if dosed.given else None
    read = replace(read, reading=structs.replace(read.reading, taken=taken))
    reports.write(
        given["report"], given["replace"], lambda path: path.write_bytes(flash_picture.png(read, 150))
    )
    kept = _keep(scan, read, dosed, given) if keeping.wanted(given) else None
    if given["as_json"]:
        click.echo(msgspec.json.format(msgspec.json.encode(read.reading).decode(), indent=2))
        return
    say([*_lines(read.reading), *keeping.taken_lines(dosed)], read.reading.notes)
    if kept is not None:
        click.echo(keeping.said(kept, given["sheet"]))


def _keep(scan: Path, read, dosed: doses.Dosed, given: dict) -> int:
    import msgspec

    from footlight.strips.show import flash_picture, report

    result = msgspec.json.encode(read.reading).decode()
    entry = keeping.entry("pre-flash", result, dosed, read.reading.seconds, scan)
    sheet = f", sheet {given['sheet']}" if given["sheet"] else ""
    what = f"pre-flash strip {scan.name} read{sheet}: {flash_picture.headline(read.reading)}"
    picture = report.small(lambda dpi: flash_picture.png(read, dpi), readings.MOST_PICTURE_BYTES)
    return keeping.keep(given["book"], entry, what, picture)


def _lines(reading) -> list[str]:
    head = ("step", "flash", *(f"{name} D" for name in reading.bands))
    rows = [
        (
            f"{place}",
            q.format_seconds(band.flash_s) if band.flash_s else "none",
            *(
                f"{density:.3f} ± {doubt:.3f}"
                for density, doubt in zip(band.density_d, band.uncertainty_d, strict=True)
            ),
        )
        for place, band in enumerate(reading.flashes)
    ]
    return [*reading.words, "", *columns(head, rows)]
