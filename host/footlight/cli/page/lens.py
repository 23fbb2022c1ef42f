"""`footlight page lens`"""

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import click

from footlight import quantities as q
from footlight.cli.options import notebook_option, replace_option
from footlight.cli.page import shared

if TYPE_CHECKING:
    from footlight.camera.lens import Card
    from footlight.notebook.stock.lenses import Lens


@click.command("lens")
@click.argument("names", nargs=-1, metavar="[NAME]...")
@click.option("--stop", "stops", multiple=True, metavar="STOP", help="A mark; give as many as it has.")
@click.option(
    "--draw", "draws", multiple=True, metavar="LENGTH", help="Lens board to film; as many as wanted."
)
@shared.out_option
@replace_option
@notebook_option
def command(
    names: tuple[str, ...],
    stops: tuple[str, ...],
    draws: tuple[str, ...],
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
    from footlight.camera.page import page
    from footlight.errors import InputError
    from footlight.notebook.book import notebook
    from footlight.notebook.stock import lenses

    with notebook(book, writing=False) as connection:
        found = [lenses.find(connection, name) for name in names] or lenses.every(connection)
    if not found:
        raise InputError("no lens is in the notebook; 'footlight lens add' writes down the first")
    draws_mm = tuple(q.parse_length_mm(draw, "--draw") for draw in draws)
    target = out or Path("lens-tables.html")
    shared.write(target, page([_card(lens, stops, draws_mm) for lens in found]), replace)
    click.echo(f"{target}: {len(found)} {'table' if len(found) == 1 else 'tables'}")


def _card(lens: "Lens", stops: tuple[str, ...], draws_mm: tuple[float, ...]) -> "Card":
    from footlight.camera.lens import USUAL_STOPS, card
    from footlight.cli.exposing import as_lens

    return card(replace(as_lens(lens, stops or USUAL_STOPS), draws_mm=draws_mm))
