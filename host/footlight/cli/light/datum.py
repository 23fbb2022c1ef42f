"""`footlight light datum`"""

import click

from footlight import quantities as q
from footlight.cli.options import json_option, print_json
from footlight.errors import InputError
from footlight.light.datum import two_heights
from footlight.written import light as written


@click.command
@click.argument("low")
@click.argument("high")
@click.option(
    "--off", metavar="STOPS", default="0.05", show_default=True, help="How well the two are compared."
)
@click.option(
    "--scale-off", metavar="LENGTH", default="1 mm", show_default=True, help="How well the scale is read."
)
@json_option
def command(low: str, high: str, off: str, scale_off: str, as_json: bool) -> None:
    """Where the scale on the column begins: what to add to it for lens pupil to sheet.

    LOW and HIGH are a reading of the scale with what a meter said there, or with the time that gave one
    and the same grey. Double the height, or more. A meter is better: times bring in long exposures.

    \b
        footlight light datum "400 mm, 48 lx" "800 mm, 12.9 lx"
        footlight light datum "400 mm, 4 s" "800 mm, 14.9 s"
    """
    one, other = written.parts(low, "LOW"), written.parts(high, "HIGH")
    if one.height_mm is None or other.height_mm is None:
        raise InputError("LOW, HIGH: each needs a reading of the scale, for example '400 mm, 48 lx'")
    found = two_heights(
        one.height_mm,
        other.height_mm,
        _ratio(one, other),
        ratio_stops=q.parse_stops(off, "--off", least=0.001, most=2),
        reading_mm=q.parse_length_mm(scale_off, "--scale-off"),
    )
    if as_json:
        print_json({"add_mm": round(found.add_mm, 1), "uncertainty_mm": round(found.uncertainty_mm, 1)})
        return
    click.echo(found.summary)


def _ratio(one: written.Parts, other: written.Parts) -> float:
    """Light at the lower height over light at the higher one."""
    if one.lux and other.lux:
        return one.lux / other.lux
    if one.seconds and other.seconds:
        return other.seconds / one.seconds
    raise InputError(
        "LOW, HIGH: both need a meter reading ('48 lx') or both a time ('4 s') for the same grey"
    )
