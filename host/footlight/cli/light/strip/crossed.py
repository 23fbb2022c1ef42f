"""`footlight light strip crossed`"""

from pathlib import Path

import click

from footlight import quantities as q
from footlight.cli.light.strip import shared as strips
from footlight.cli.options import print_json
from footlight.light.strip import ready
from footlight.light.strip.plan import Manner


@click.command
@click.argument("exposure")
@click.option("--white", metavar="EXPOSURE", required=True, help="The first exposure that just gives white.")
@click.option("--white-setup", metavar="NAME", help="Its light setup, where that is another one.")
@click.option(
    "--grey", metavar="STOPS", default="-1 1/3", show_default=True, help="Mid-grey, from just white."
)
@click.option("--sheet", metavar="SIZE", default="8x10", show_default=True, help="The sheet.")
@strips.step_options
@strips.manner_option
@click.option("--blade", metavar="LENGTH", help="Height of the blade over the wet sheet.")
@strips.light_options
def command(
    exposure: str,
    white: str,
    white_setup: str | None,
    grey: str,
    sheet: str,
    step: str | None,
    steps: int | None,
    manner: Manner,
    blade: str | None,
    setup: str | None,
    setups: str,
    toml: Path | None,
    replace: bool,
    as_json: bool,
) -> None:
    """First exposures in lengthwise bands (black, mid-grey, white, white + 2 stops), second ones across.

    The normal target: one sheet says how far blacks and whites go at every second exposure.

    \b
        footlight light strip crossed "6 s, 600 mm, f/11" --white "3 s, 600 mm, f/11" --blade "30 mm"
    """
    lit = strips.read_light(exposure, setup, setups)
    first = strips.read_light(white, white_setup or setup, setups)
    paper = q.parse_sheet(sheet, "--sheet")
    along_mm = max(paper.width_mm, paper.height_mm)
    layout = strips.read_layout(f"{along_mm} mm", blade, None)
    given = strips.read_steps(step, steps)
    second = ready.second_exposure(lit.setup, lit.centre_s, layout, manner=manner, **given)
    both = ready.crossed(first.setup, first.centre_s, second, paper, grey_stops=q.parse_stops(grey, "--grey"))
    if as_json:
        print_json(both.as_dict())
    else:
        _say(both)
    cap_ms = min(lit.cap_ms, first.cap_ms)
    strips.write_toml(toml, lit, lambda name: _toml(both, first.setup_name or name, name, cap_ms), replace)


def _say(both: ready.CrossedStrip) -> None:
    rows = ", ".join(f"{number} {name}" for number, name in enumerate(both.row_names))
    click.echo(f"lengthwise bands: {rows}")
    strips.say_plan(both.first)
    click.echo("\nthen the process as far as the second exposure, and across, on the wet sheet:\n")
    strips.say_plan(both.second)


def _toml(both: ready.CrossedStrip, first: str, second: str, cap_ms: int) -> str:
    from footlight.sequence.strip_file import crossed_to_toml

    return crossed_to_toml(both, first, second, cap_ms=cap_ms)
