"""`footlight read print`"""

from pathlib import Path

import click

from footlight.cli.options import json_option, notebook_option, print_json, say
from footlight.cli.read import doses, keeping, reports, scanned
from footlight.errors import InputError
from footlight.notebook.sheets import readings


@click.command("print")
@click.argument("scan", type=click.Path(path_type=Path))
@click.option("--sheet", type=click.IntRange(1), metavar="N", help="Whose print: keep the reading with it.")
@click.option("--controller", help="Which controller's, if several have a sheet of that number.")
@click.option(
    "--rebate", metavar="X,Y,W,H", help="A place of unexposed rebate, mm from the left top: '4, 20, 8, 30'."
)
@click.option("--highlight", metavar="X,Y,W,H", help="A plain highlight, likewise.")
@scanned.PAPER
@click.option(
    "--patch",
    "patches",
    multiple=True,
    metavar="PATCH",
    help="'0.06 at 12, 80 mm': a known density; twice or more.",
)
@click.option("--linear", is_flag=True, help="The scan is proportional to light, not sRGB.")
@click.option("--ppi", type=float, help="Resolution, where the file has none or a wrong one.")
@reports.option("Write a picture of what was taken: .png.")
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
    from footlight.strips import need

    need.scans()
    reports.check(given["report"], given["replace"], reports.PNG)
    from footlight.strips.measure import spot
    from footlight.strips.scan.scan import load
    from footlight.strips.show import spot_picture

    texts = {name: given[name] for name in spot.NAMES if given[name]}
    places = {name: _place(text, f"--{name}") for name, text in texts.items()}
    paper_d, _ = scanned.paper(given["paper"])
    patches = tuple(map(scanned.patch, given["patches"]))
    loaded = load(scan, given["ppi"])
    found = spot.measure_spots(loaded, places, patches, given["linear"], paper_d)
    reports.write(
        given["report"],
        given["replace"],
        lambda path: path.write_bytes(spot_picture.png(found, loaded.name, 150)),
    )
    kept = _keep(scan, found, given) if given["sheet"] is not None else None
    if given["as_json"]:
        print_json(found.as_dict())
        return
    say(found.lines(), found.notes)
    if kept is not None:
        click.echo(keeping.said(kept, given["sheet"]))


def _keep(scan: Path, found, given: dict) -> int:
    import json

    from footlight.strips.show import report, spot_picture

    entry = readings.Entry(
        kind="print",
        result=json.dumps(found.as_dict(), ensure_ascii=False),
        sheet_id=doses.sheet_id(given),
        scan=scan.name,
        scan_sha256=keeping.sha256_of(scan),
        d_max=found.d_max,
        veil_d=found.veil_d,
        mottle_d=found.mottle_d,
    )
    values = ((found.d_max, "black"), (found.veil_d, "veil"), (found.mottle_d, "mottle"))
    said = ", ".join(f"{name} {value:.3f} D" for value, name in values if value is not None)
    picture = report.small(lambda dpi: spot_picture.png(found, scan.name, dpi), readings.MOST_PICTURE_BYTES)
    return keeping.keep(
        given["book"], entry, f"print {scan.name} read, sheet {given['sheet']}: {said}", picture
    )


def _place(text: str, option: str) -> tuple[float, float, float, float]:
    values = doses.numbers(text, option, 0, 2000)
    if len(values) != 4 or min(values[2:]) < 4:
        raise InputError(f"{option}: '{text}' must be x, y, width, height in mm, 4 mm wide and high or more")
    return values[0], values[1], values[2], values[3]
