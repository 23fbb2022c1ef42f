"""`footlight mix tray`"""

import click

from footlight import quantities as q
from footlight.cli.options import json_option, print_json, say
from footlight.errors import field
from footlight.written.mixes import depth_or_volume


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
    from footlight.actions.fill_tray import to_depth, with_volume
    from footlight.views import mixes

    inside = q.parse_sheet(size, field("size"))
    rim_mm = q.parse_length_mm(rim, field("rim")) if rim else None
    wanted, is_depth = depth_or_volume(amount, field("amount"))
    filled = (to_depth if is_depth else with_volume)(inside, wanted, rim_mm)
    if as_json:
        print_json(mixes.tray_as_dict(filled))
        return
    say(mixes.tray_lines(filled, inside), filled.notes)
