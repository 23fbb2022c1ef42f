"""`footlight mix peroxide`"""

import click

from footlight import quantities as q
from footlight.chemistry import peroxide
from footlight.chemistry.hazards import hazards_for
from footlight.cli.mix import options
from footlight.cli.options import json_option, print_json, say
from footlight.errors import InputError


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
    bottle, made = options.stock_of(stock, "--stock"), options.stock_of(wanted, "WANTED")
    asked = options.wanted(volume, tray, depth, rim)
    if (asked is None) == (left is None):
        raise InputError("VOLUME: give a volume, a tray, or what is left in the bottle with --left: just one")
    if asked:
        mix = peroxide.for_volume(bottle.ww, made.ww, asked.volume_ml)
    else:
        mix = peroxide.from_stock(bottle.ww, made.ww, q.parse_volume_ml(left, "--left"))
    hazards = [hazards_for("hydrogen peroxide", ww) for ww in dict.fromkeys((mix.made.ww, mix.stock.ww))]
    notes = asked.notes if asked else []
    if as_json:
        print_json(_as_dict(mix) | {"notes": notes, "safety": [one.as_dict() for one in hazards]})
        return
    say(_lines(mix), notes)
    options.say_hazards(hazards)


def _as_dict(mix: peroxide.Mix) -> dict[str, object]:
    return {
        "stock_ml": round(mix.stock_ml, 3),
        "water_ml": round(mix.water_ml, 3),
        "volume_ml": round(mix.volume_ml, 3),
        "stock": mix.stock.as_dict(),
        "made": mix.made.as_dict(),
    }


def _lines(mix: peroxide.Mix) -> list[str]:
    return [
        peroxide.poured(mix),
        f"  stock {mix.stock}",
        f"  bath  {mix.made}",
        "  water first, peroxide into it",
    ]
