"""`footlight lens card`"""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from footlight.cli.options import json_option, notebook_option, print_json
from footlight.cli.types import Quantity

if TYPE_CHECKING:
    from footlight.quantities import FStop


@click.command("card")
@click.argument("name")
@click.option(
    "--stop",
    "stops",
    multiple=True,
    metavar="STOP",
    type=Quantity("parse_stop"),
    help="A mark; give as many as it has.",
)
@click.option(
    "--draw",
    "draws_mm",
    multiple=True,
    metavar="LENGTH",
    type=Quantity("parse_length_mm"),
    help="Lens board to film; as many as wanted.",
)
@notebook_option
@json_option
def command(
    name: str, stops: "tuple[FStop, ...]", draws_mm: tuple[float, ...], book: Path, as_json: bool
) -> None:
    """Openings of lens NAME, and the stop that really counts at each draw; '*' marks what was measured.

    \b
    Example:
      footlight lens card "portrait lens"
      footlight lens card "portrait lens" --draw "210 mm" --draw "300 mm"
    """
    from footlight.actions.list_lenses import lens_cards
    from footlight.views.lenses import card_lines

    (card,) = lens_cards(book, [name], stops, draws_mm)
    if as_json:
        print_json(card.as_dict())
    else:
        click.echo("\n".join(card_lines(card)))
