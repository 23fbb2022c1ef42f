"""`footlight mix dilute`"""

import click

from footlight import quantities as q
from footlight.cli.mix import options
from footlight.cli.options import json_option, print_json, say
from footlight.errors import field


@click.command
@click.argument("dilution")
@click.argument("volume", required=False)
@click.option("--left", metavar="VOLUME", help="Make it from what is left in the bottle.")
@click.option("--of", "stock", default="stock", help="What is diluted: its hazards are shown.")
@options.in_tray
@options.depth
@options.rim
@json_option
def command(
    dilution: str,
    volume: str | None,
    left: str | None,
    stock: str,
    tray: str | None,
    depth: str,
    rim: str | None,
    as_json: bool,
) -> None:
    """Stock and water for a VOLUME of DILUTION.

    \b
        footlight mix dilute "1 + 9" "1 L"
        footlight mix dilute "1 in 10" --tray "9.5x12 in" --depth "15 mm" --rim "60 mm"
        footlight mix dilute "1 + 9" --left "75 mL" --of "paper developer concentrate"
    """
    from footlight.actions.mix_stock import dilute
    from footlight.views import mixes
    from footlight.views.hazards import hazard_lines

    parts = q.parse_dilution(dilution, field("dilution"))
    left_ml = q.parse_volume_ml(left, field("left")) if left else None
    asked = options.volume_of(volume, tray, depth, rim)
    diluted = dilute(parts, asked, left_ml, stock, as_plus="+" in dilution)
    if as_json:
        print_json(mixes.diluted_as_dict(diluted))
        return
    say(mixes.diluted_lines(diluted), diluted.notes)
    say(hazard_lines([diluted.hazards]))
