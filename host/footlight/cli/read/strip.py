"""`footlight read strip`"""

from pathlib import Path

import click

from footlight import quantities as q
from footlight.cli.options import json_option, print_json, say, terminal_width
from footlight.cli.read import options
from footlight.errors import field


@click.command
@click.argument("scan", type=click.Path(path_type=Path))
@options.doses
@options.scan
@click.option(
    "--bands",
    default="black, grey, white, white2",
    show_default=True,
    help="Bands in order; 'black' alone for a plain strip.",
)
@click.option("--edges", metavar="LIST", help="Inner edges of the steps by hand, mm from the zero end.")
@click.option(
    "--corners", metavar="LIST", help="The strip's corners by hand, around it: 'x, y; x, y; x, y; x, y', mm."
)
@click.option("--short", is_flag=True, help="The steps run along the short side.")
@options.paper
@click.option(
    "--mottle",
    metavar="DENSITY",
    default="0.010",
    show_default=True,
    help="The mottle that you no longer accept.",
)
@options.repeat
@click.option(
    "--earlier", type=click.Path(path_type=Path), help="The --json of the coarser strip before this one."
)
@options.report("Write the page: .html or .png.")
@json_option
def command(scan: Path, **given) -> None:
    """Read the SCAN of a dry strip: where black is full, where white is spoilt, what to give next.

    Lay the strip and a grey tablet on the scanner, 5 mm apart, white paper about them; 600 ppi, 16 bits, no
    automatic corrections, TIFF. The steps lie along the long side unless you say otherwise. Look at the
    report: it shows what was taken for what.

    With --sheet the light of every step is taken from the notebook as it was really given, the present dose
    from the light setups as they were sent, and the reading is kept with its picture.

    \b
        footlight read strip strip.tif --sheet 41 --tablet "0.06, 0.2, 0.35, 0.5, 0.7, 0.9, 1.1, 1.3"
        footlight read sample strip.tif
        footlight read strip strip.tif --present "8 s" --centre "8 s" --step "1 stop" --steps 7 \\
            --tablet "0.06, 0.2, 0.35, 0.5, 0.7, 0.9, 1.1, 1.3, 1.5, 1.7, 1.9, 2.1" --report strip.html
    """
    from footlight.actions.read_strip import StripLayout, StripRules, read_strip
    from footlight.views import strip_readings
    from footlight.written import scans

    layout = StripLayout(
        scans.bands(given["bands"], field("bands")), scans.edges_mm(given["edges"]), given["short"],
        scans.corners_mm(given["corners"]),
    )  # fmt: skip
    rules = StripRules(
        q.parse_number(given["mottle"], field("mottle"), least=0.002, most=0.2),
        options.repeat_of(given["repeat"]),
        scans.base_d(given["paper"], field("paper")),
        given["earlier"],
    )
    read = read_strip(
        options.scan_of(scan, given), options.doses_of(given), layout, rules,
        report=options.report_of(given), keeping=options.keeping_of(given),
    )  # fmt: skip
    if given["as_json"]:
        print_json(strip_readings.as_dict(read.reading))
        return
    width = terminal_width()
    taken = strip_readings.taken_lines(read.doses.taken)
    say([*strip_readings.strip_lines(read.reading, width), *taken], read.reading.notes)
    say(strip_readings.kept_lines(read.kept, given["sheet"]))
