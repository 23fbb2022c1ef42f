"""`footlight mix which`"""

import click

from footlight import quantities as q
from footlight.chemistry.dilution import of_amounts
from footlight.cli.options import json_option, print_json, say
from footlight.errors import field


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
    from footlight.views import mixes

    stock_ml = q.parse_volume_ml(stock, field("stock"))
    second_ml = q.parse_volume_ml(water, field("water"))
    made = of_amounts(stock_ml, second_ml - stock_ml if made_up else second_ml)
    if as_json:
        print_json(mixes.which_as_dict(made))
        return
    say([mixes.which_line(made)])
