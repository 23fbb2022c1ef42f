"""`footlight light flash gain`"""

import click

from footlight import quantities as q
from footlight.cli.options import json_option, print_json
from footlight.errors import InputError
from footlight.light.preflash import SPEED_DROP_D, Patch, speed_gain_stops
from footlight.written.lists import pairs


@click.command
@click.argument("patches", nargs=-1, required=True)
@click.option(
    "--flashed",
    "flashed",
    multiple=True,
    metavar="PATCH",
    help="A patch of the flashed scale; again for each.",
)
@click.option(
    "--drop", metavar="DENSITY", default=f"{SPEED_DROP_D} D", show_default=True, help="How far below black."
)
@json_option
def command(patches: tuple[str, ...], flashed: tuple[str, ...], drop: str, as_json: bool) -> None:
    """How much less camera exposure a flashed paper needs, from two scales.

    PATCHES are camera exposure and density of the unflashed scale, --flashed those of the flashed one.

    \b
        footlight light flash gain "0 stops, 2.10 D" "2 stops, 2.05 D" "4 stops, 1.60 D" \\
            --flashed "0 stops, 2.06 D" --flashed "2 stops, 1.80 D" --flashed "4 stops, 1.20 D"
    """
    example = "'2 stops, 2.05 D'"
    plain = pairs(patches, q.parse_stops, q.parse_density_d, "patch", example)
    with_flash = pairs(flashed, q.parse_stops, q.parse_density_d, "--flashed", example)
    if len(plain) < 2 or len(with_flash) < 2:
        raise InputError(f"both scales need two patches or more, for example {example} --flashed {example}")
    gain = speed_gain_stops(
        [Patch(*pair) for pair in plain],
        [Patch(*pair) for pair in with_flash],
        q.parse_density_d(drop, "--drop"),
    )
    if as_json:
        print_json({"gain_stops": round(gain, 4)})
        return
    click.echo(f"{gain:+.2f} stop of speed for the shadows")
