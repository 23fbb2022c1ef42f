"""`footlight paper add`"""

import time
from pathlib import Path

import click

from footlight.cli.options import json_option, notebook_option, print_json
from footlight.cli.types import Quantity, WholeNumber


@click.command("add")
@click.argument("name")
@click.argument("paper")
@click.option("--size", required=True, help="Of a sheet: '8x10', '20 x 25 cm'.")
@click.option(
    "--sheets", "bought", required=True, type=WholeNumber(most=100_000), help="So many were bought."
)
@click.option(
    "--speed",
    "index",
    metavar="INDEX",
    type=Quantity("index", "footlight.written.camera"),
    help="Exposure index in the camera, if it is known: '4'.",
)
@notebook_option
@json_option
def command(
    name: str, paper: str, size: str, bought: int, index: float | None, book: Path, as_json: bool
) -> None:
    """Write down a batch of PAPER under a short NAME of your own.

    \b
    Example:
      footlight paper add A "baryta, glossy, grade 2" --size 8x10 --sheets 25
      footlight paper add B "resin coated, pearl" --size "18 x 24 cm" --sheets 100 --speed 6
    """
    from footlight.actions.add_paper import add_paper
    from footlight.views.papers import as_dict

    added = add_paper(book, name, paper, size, bought, index, int(time.time()))
    batch, in_use = added.batch, added.in_use
    if as_json:
        print_json(as_dict(batch))
        return
    click.echo(f"paper {batch.name}: {batch.paper}, {batch.size}, {batch.bought} sheets")
    if in_use and in_use.id != batch.id:
        click.echo(f"{in_use.name} stays in use for this size; change over with 'footlight paper use {name}'")
    else:
        click.echo("It is in use: sheets of this size that come home are taken to be of it.")
