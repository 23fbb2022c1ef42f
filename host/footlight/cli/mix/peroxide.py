"""`footlight mix peroxide`"""

import click

from footlight import quantities as q
from footlight.cli.mix import options
from footlight.cli.options import json_option, print_json, say
from footlight.errors import field


@click.command
@click.argument("wanted")
@click.argument("volume", required=False)
@click.option("--stock", required=True, metavar="STRENGTH", help="What the bottle's label says: '35 % w/w'.")
@click.option("--left", metavar="VOLUME", help="Make it from what is left in the bottle.")
@options.in_tray
@options.depth
@options.rim
@json_option
def command(
    wanted: str,
    volume: str | None,
    stock: str,
    left: str | None,
    tray: str | None,
    depth: str,
    rim: str | None,
    as_json: bool,
) -> None:
    """Peroxide of the WANTED strength: stock and water for a VOLUME, a tray, or what is left.

    Mass is what adds up, so the sums go through the density of the solution; water is the rest.

    \b
        footlight mix peroxide "10 % w/w" "1 L" --stock "30 % w/w"
        footlight mix peroxide "6 % w/v" --stock "110 vol" --tray "9.5x12 in" --depth "15 mm"
        footlight mix peroxide "10 % w/w" --stock "35 % w/w" --left "180 mL"
    """
    from footlight.actions.mix_stock import mix_peroxide
    from footlight.views import mixes
    from footlight.views.hazards import hazard_lines
    from footlight.written.mixes import peroxide_of

    bottle, made = peroxide_of(stock, field("stock")), peroxide_of(wanted, field("wanted"))
    left_ml = q.parse_volume_ml(left, field("left")) if left else None
    mixed = mix_peroxide(bottle.ww, made.ww, options.volume_of(volume, tray, depth, rim), left_ml)
    if as_json:
        print_json(mixes.peroxide_as_dict(mixed))
        return
    say(mixes.peroxide_lines(mixed), mixed.notes)
    say(hazard_lines(mixed.hazards))
