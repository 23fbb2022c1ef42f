"""`footlight page lens`"""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from footlight.cli.options import notebook_option, replace_option
from footlight.cli.page import options
from footlight.cli.types import Quantity

if TYPE_CHECKING:
    from footlight.quantities import FStop


@click.command("lens")
@click.argument("names", nargs=-1, metavar="[NAME]...")
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
@options.out_option
@replace_option
@notebook_option
def command(
    names: tuple[str, ...],
    stops: "tuple[FStop, ...]",
    draws_mm: tuple[float, ...],
    out: Path | None,
    replace: bool,
    book: Path,
) -> None:
    """Tables of your lenses, those called NAME or all: true stops and bellows factors at each draw.

    For a lens that is not in the notebook: footlight camera card "150 mm" --html card.html

    \b
    Example:
      footlight page lens
      footlight page lens "portrait lens" --draw "210 mm" --draw "300 mm" --out portrait.html
    """
    from footlight.actions.list_lenses import lens_cards
    from footlight.camera.page import page

    cards = lens_cards(book, names, stops, draws_mm)
    target = out or Path("lens-tables.html")
    options.write(target, page(cards), replace)
    click.echo(f"{target}: {len(cards)} {'table' if len(cards) == 1 else 'tables'}")
