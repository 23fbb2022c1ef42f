"""`footlight light flash threshold`"""

import click

from footlight import quantities as q
from footlight.cli.options import json_option, print_json
from footlight.light.preflash import Step, threshold
from footlight.written.lists import pairs


@click.command
@click.argument("steps", nargs=-1, required=True)
@click.option("--above", metavar="DENSITY", default="0.04 D", show_default=True, help="What counts as seen.")
@json_option
def command(steps: tuple[str, ...], above: str, as_json: bool) -> None:
    """The first flash that paper sees: 0.04 D above the band without flash.

    STEPS are flash and density, the first without flash.

    \b
        footlight light flash threshold "0 s, 0.05 D" "1 s, 0.05 D" "1.4 s, 0.07 D" "2 s, 0.11 D"
    """
    read = pairs(steps, q.parse_seconds, q.parse_density_d, "step", "'1 s, 0.05 D'")
    found = threshold([Step(*pair) for pair in read], q.parse_density_d(above, "--above"))
    if as_json:
        print_json({"flash_s": found.flash_s, "density_d": found.density_d})
        return
    click.echo(f"threshold {q.format_seconds(found.flash_s)}, {found.density_d:.2f} D")
    click.echo("! It only says where paper begins to see. The strip with a shadow scale decides.")
