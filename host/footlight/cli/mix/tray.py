"""`footlight mix tray`"""

import click

from footlight import quantities as q
from footlight.chemistry import tray
from footlight.cli.options import json_option, print_json, say
from footlight.errors import InputError


@click.command
@click.argument("size")
@click.argument("amount")
@click.option("--rim", metavar="LENGTH", help="Height of the rim inside: what does not fit is refused.")
@json_option
def command(size: str, amount: str, rim: str | None, as_json: bool) -> None:
    """How much stands in a tray of inner SIZE: AMOUNT is a depth, or a volume whose depth is wanted.

    \b
        footlight mix tray "9.5x12 in" "15 mm"
        footlight mix tray "26 x 31 cm" "1.5 L" --rim "55 mm"
    """
    inside = q.parse_sheet(size, "SIZE")
    volume_ml, deep_mm = _both(inside, amount)
    if rim:
        tray.check_fits(inside, q.parse_length_mm(rim, "--rim"), volume_ml)
    note = tray.depth_note(deep_mm)
    if as_json:
        print_json({"volume_ml": round(volume_ml, 2), "depth_mm": round(deep_mm, 3), "note": note})
        return
    say(
        [f"{q.format_volume_ml(volume_ml)}, {q.format_length_mm(deep_mm)} deep in {q.format_sheet(inside)}"],
        [note] if note else [],
    )


def _both(inside: q.Sheet, amount: str) -> tuple[float, float]:
    try:
        deep_mm = q.parse_length_mm(amount, "AMOUNT")
    except InputError as not_a_length:
        try:
            volume_ml = q.parse_volume_ml(amount, "AMOUNT")
        except InputError:
            raise not_a_length from None
        return volume_ml, tray.depth_mm(inside, volume_ml)
    return tray.volume_ml(inside, deep_mm), deep_mm
