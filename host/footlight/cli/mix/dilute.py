"""`footlight mix dilute`"""

import click

from footlight import quantities as q
from footlight.chemistry.dilution import Measured, for_volume, from_stock, misread
from footlight.chemistry.hazards import hazards_for
from footlight.cli.mix import options
from footlight.cli.options import json_option, print_json, say
from footlight.errors import InputError


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
    parts = q.parse_dilution(dilution, "DILUTION")
    asked = options.wanted(volume, tray, depth, rim)
    if (asked is None) == (left is None):
        raise InputError("VOLUME: give a volume, a tray, or what is left in the bottle with --left: just one")
    made = for_volume(parts, asked.volume_ml) if asked else from_stock(parts, _left(left))
    notes = [*(asked.notes if asked else []), *_misread(made, dilution)]
    hazards = hazards_for(stock)
    if as_json:
        print_json(
            {
                "dilution": str(parts),
                "stock_ml": round(made.stock_ml, 3),
                "water_ml": round(made.water_ml, 3),
                "total_ml": round(made.total_ml, 3),
                "notes": notes,
                "safety": hazards.as_dict(),
            }
        )
        return
    say([f"{_poured(made)}: {parts}"], notes)
    options.say_hazards([hazards])


def _left(left: str | None) -> float:
    return q.parse_volume_ml(left, "--left")


def _poured(made: Measured) -> str:
    amounts = [q.format_volume_ml(volume) for volume in (made.stock_ml, made.water_ml, made.total_ml)]
    return f"{amounts[0]} of stock + {amounts[1]} of water = {amounts[2]}"


def _misread(made: Measured, written: str) -> list[str]:
    """`1 + 9` and `1 in 9` are a tenth apart: say what the other reading would have been."""
    ratio = misread(made.dilution)
    if ratio is None or "+" not in written:
        return []
    wrong_ml = made.total_ml * made.dilution.stock / made.dilution.water
    other = f"1 in {made.dilution.water / made.dilution.stock:g}"
    percent = f"{100 * (ratio - 1):.1f} %"
    return [f"Read as '{other}' it would be {q.format_volume_ml(wrong_ml)} of stock, {percent} too much."]
