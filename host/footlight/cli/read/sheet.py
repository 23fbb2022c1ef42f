"""`footlight read print`"""

from pathlib import Path

import click

from footlight.cli.options import json_option, notebook_option, print_json, say
from footlight.cli.read import options
from footlight.errors import field


@click.command("print")
@click.argument("scan", type=click.Path(path_type=Path))
@click.option("--sheet", type=click.IntRange(1), metavar="N", help="Whose print: keep the reading with it.")
@click.option("--controller", help="Which controller's, if several have a sheet of that number.")
@click.option(
    "--rebate", metavar="X,Y,W,H", help="A place of unexposed rebate, mm from the left top: '4, 20, 8, 30'."
)
@click.option("--highlight", metavar="X,Y,W,H", help="A plain highlight, likewise.")
@options.paper
@options.print_scan
@options.report("Write a picture of what was taken: .png.")
@notebook_option
@json_option
def command(scan: Path, **given) -> None:
    """What any print says of itself: its fullest black in the rebate, veil and mottle in a plain highlight.

    Both places are found: the darkest even place along the rim, and the lightest even place of 10 mm or more
    within. It is said which; point at others where they are wrong. Black needs two known patches beside the
    print to be trusted.

    \b
        footlight read sample print.tif --kind print
        footlight read print print.tif --patch "0.06 at 6, 6 mm" --patch "1.9 at 14, 6 mm" --paper 0.08
        footlight read print sheet-41.tif --sheet 41 --highlight "60, 40, 15, 15"
    """
    from footlight.actions.read_print import read_print
    from footlight.views import strip_readings
    from footlight.written import scans

    places = {name: scans.place(given[name], field(name)) for name in ("rebate", "highlight") if given[name]}
    read = read_print(
        options.scan_of(scan, given),
        places,
        scans.base_d(given["paper"], field("paper")),
        controller=given["controller"],
        report=options.report_of(given),
        keeping=options.keeping_of(given),
    )
    if given["as_json"]:
        print_json(read.spots.as_dict())
        return
    say(read.spots.lines(), read.spots.notes)
    say(strip_readings.kept_lines(read.kept, given["sheet"]))
