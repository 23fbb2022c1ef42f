"""`footlight read print`"""

from pathlib import Path

import click

from footlight.cli.light import printing
from footlight.cli.read import doses
from footlight.errors import InputError


@click.command("print")
@click.argument("scan", type=click.Path(path_type=Path))
@click.option(
    "--rebate", metavar="X,Y,W,H", help="A place of unexposed rebate, mm from the left top: '4, 20, 8, 30'."
)
@click.option("--highlight", metavar="X,Y,W,H", help="A plain highlight, likewise.")
@click.option(
    "--patch",
    "patches",
    multiple=True,
    metavar="PATCH",
    help="'0.06 at 12, 80 mm': a known density; twice or more.",
)
@click.option("--linear", is_flag=True, help="The scan is proportional to light, not sRGB.")
@click.option("--ppi", type=float, help="Resolution, where the file has none or a wrong one.")
@printing.as_json
def command(scan: Path, rebate, highlight, patches, linear: bool, ppi: float | None, as_json: bool) -> None:
    """What any print says of itself: its fullest black in the rebate, veil and mottle in a plain highlight.

    \b
        footlight read print sheet-41.tif --rebate "4, 20, 8, 30" --highlight "60, 40, 15, 15"
    """
    from footlight.strips import need

    need.scans()
    if not rebate and not highlight:
        raise InputError("print: name a place, --rebate or --highlight, as 'x, y, width, height' in mm")
    from footlight.cli.read.strip import _patch
    from footlight.strips import spot
    from footlight.strips.scan import load

    places = {
        name: _place(text, f"--{name}")
        for name, text in (("rebate", rebate), ("highlight", highlight))
        if text
    }
    found = spot.measure_spots(load(scan, ppi), places, tuple(map(_patch, patches)), linear)
    if as_json:
        printing.say_json(found.as_dict())
        return
    printing.say(found.lines(), found.notes)


def _place(text: str, option: str) -> tuple[float, float, float, float]:
    values = doses.numbers(text, option, 0, 2000)
    if len(values) != 4 or min(values[2:]) < 4:
        raise InputError(f"{option}: '{text}' must be x, y, width, height in mm, 4 mm wide and high or more")
    return values[0], values[1], values[2], values[3]
