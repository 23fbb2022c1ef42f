"""`footlight mix which`"""

import click

from footlight import quantities as q
from footlight.chemistry.dilution import of_amounts
from footlight.cli.options import json_option, print_json


@click.command
@click.argument("stock")
@click.argument("water")
@click.option("--made-up", is_flag=True, help="The second amount is the whole, stock included.")
@json_option
def command(stock: str, water: str, made_up: bool, as_json: bool) -> None:
    """Which dilution is this: STOCK with WATER added to it (or made up to that, with --made-up).

    \b
        footlight mix which "37 mL" "410 mL"
        footlight mix which "37 mL" "447 mL" --made-up
    """
    stock_ml, second_ml = q.parse_volume_ml(stock, "STOCK"), q.parse_volume_ml(water, "WATER")
    made = of_amounts(stock_ml, second_ml - stock_ml if made_up else second_ml)
    if as_json:
        print_json(
            {
                "water_for_one_of_stock": round(made.dilution.water / made.dilution.stock, 4),
                "one_in": round(made.dilution.total / made.dilution.stock, 4),
                "percent_v_v": round(100 * made.dilution.fraction, 4),
                "total_ml": round(made.total_ml, 3),
            }
        )
        return
    share = q.format_percent(100 * made.dilution.fraction)
    click.echo(f"{made.dilution.as_plus}, which is {made.dilution.as_in}: {share} of stock by volume")
