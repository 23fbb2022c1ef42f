"""`footlight lens card`"""

from dataclasses import replace
from pathlib import Path

import click

from footlight import quantities as q
from footlight.cli.options import json_option, notebook_option, print_json


@click.command("card")
@click.argument("name")
@click.option("--stop", "stops", multiple=True, metavar="STOP", help="A mark; give as many as it has.")
@click.option(
    "--draw", "draws", multiple=True, metavar="LENGTH", help="Lens board to film; as many as wanted."
)
@notebook_option
@json_option
def command(name: str, stops: tuple[str, ...], draws: tuple[str, ...], book: Path, as_json: bool) -> None:
    """Openings of lens NAME, and the stop that really counts at each draw; '*' marks what was measured.

    \b
    Example:
      footlight lens card "portrait lens"
      footlight lens card "portrait lens" --draw "210 mm" --draw "300 mm"
    """
    from footlight.camera.lens import USUAL_STOPS, card
    from footlight.cli.camera.card import card_lines
    from footlight.cli.exposing import as_lens
    from footlight.notebook.book import notebook
    from footlight.notebook.stock import lenses

    with notebook(book, writing=False) as connection:
        lens = as_lens(lenses.find(connection, name), stops or USUAL_STOPS)
    found = card(replace(lens, draws_mm=tuple(q.parse_length_mm(draw, "--draw") for draw in draws)))
    if as_json:
        print_json(found.as_dict())
    else:
        click.echo("\n".join(card_lines(found)))
