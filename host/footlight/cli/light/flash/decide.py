"""`footlight light flash decide`"""

import click

from footlight import quantities as q
from footlight.cli.options import json_option, print_json, say
from footlight.errors import InputError
from footlight.light.exposure import Exposure
from footlight.light.inverse import choices
from footlight.light.preflash import MOST_LOSS_D, Decision, Trial, decide
from footlight.views.exposures import choice_lines
from footlight.written import light as written
from footlight.written.lists import rows


@click.command
@click.argument("bands", nargs=-1, required=True)
@click.option(
    "--loss", metavar="DENSITY", default=f"{MOST_LOSS_D} D", show_default=True, help="Black that may be lost."
)
@click.option(
    "--tones", nargs=2, default=("darker", "lighter"), show_default=True, help="Names of the two tones."
)
@click.option("--at", metavar="PLACE", help="Where the strip was flashed: '900 mm, f/16, filter yellow'.")
@click.option("--new", metavar="PARTS", help="What will change when the sheets are flashed: '700 mm'.")
@json_option
def command(
    bands: tuple[str, ...], loss: str, tones: tuple[str, str], at: str | None, new: str | None, as_json: bool
) -> None:
    """The largest flash whose loss of black is within --loss and that still separates two shadow tones more.

    BANDS are flash, black, and the darker and the lighter shadow tone, read from the finished positive; the
    first has no flash. With --at and --new the flash is carried to the place of the sheets.

    \b
        footlight light flash decide "0 s, 2.10 D, 2.08 D, 2.06 D" "1 s, 2.09 D, 2.06 D, 1.99 D" \\
            "2 s, 2.06 D, 2.00 D, 1.85 D" "4 s, 1.98 D, 1.90 D, 1.70 D" --tones bark soil \\
            --at "900 mm, f/16, filter yellow" --new "700 mm"
    """
    density = q.parse_density_d
    example = "'2 s, 2.06 D, 2.00 D, 1.85 D'"
    read = rows(bands, (q.parse_seconds, density, density, density), "band", example)
    found = decide([Trial(*row) for row in read], density(loss, "--loss"))
    filter_name = written.parts(at, "--at").filter if at else None
    carried = _carried(found, at, new)
    if as_json:
        print_json(_as_dict(found, tones, filter_name, carried))
        return
    click.echo(found.summary)
    click.echo(f"tones: {tones[0]} and {tones[1]}; filter of the flash: {filter_name or 'none named'}")
    say(choice_lines(carried, "for the sheets:"))


def _carried(found: Decision, at: str | None, new: str | None) -> list[Exposure]:
    """The chosen flash where the sheets will be flashed."""
    if new is None or found.chosen.flash_s == 0:
        return []
    if at is None:
        raise InputError("--new needs --at: where the strip was flashed, for example '900 mm, f/16'")
    there = written.arrangement(written.parts(at, "--at"), at, "--at")
    return choices(found.chosen.flash_s, there, written.changed(there, new, "--new"))


def _as_dict(
    found: Decision, tones: tuple[str, str], filter_name: str | None, carried: list[Exposure]
) -> dict[str, object]:
    return {
        "flash_s": found.chosen.flash_s,
        "loss_d": round(found.loss_d, 4),
        "gain_d": round(found.gain_d, 4),
        "tones": list(tones),
        "filter": filter_name,
        "reason": found.reason,
        "for_the_sheets": [exposure.as_dict() for exposure in carried],
    }
