"""`footlight paper add`"""

import time
from dataclasses import asdict
from pathlib import Path

import click

from footlight.cli.options import json_option, notebook_option, print_json
from footlight.cli.types import WholeNumber


@click.command("add")
@click.argument("name")
@click.argument("paper")
@click.option("--size", required=True, help="Of a sheet: '8x10', '20 x 25 cm'.")
@click.option(
    "--sheets", "bought", required=True, type=WholeNumber(most=100_000), help="So many were bought."
)
@click.option("--speed", metavar="INDEX", help="Exposure index in the camera, if it is known: '4'.")
@notebook_option
@json_option
def command(
    name: str, paper: str, size: str, bought: int, speed: str | None, book: Path, as_json: bool
) -> None:
    """Write down a batch of PAPER under a short NAME of your own.

    \b
    Example:
      footlight paper add A "baryta, glossy, grade 2" --size 8x10 --sheets 25
      footlight paper add B "resin coated, pearl" --size "18 x 24 cm" --sheets 100 --speed 6
    """
    from footlight.cli.camera.written import index
    from footlight.notebook.book import notebook
    from footlight.notebook.stock import papers

    found = index(speed, "--speed") if speed else None
    with notebook(book, writing=True) as connection:
        batch = papers.add(connection, name, paper, size, bought, found, int(time.time()))
        used = papers.in_use(connection, papers.sides_of(size))
    if as_json:
        print_json(asdict(batch) | {"left": batch.left})
        return
    click.echo(f"paper {batch.name}: {batch.paper}, {batch.size}, {batch.bought} sheets")
    if used and used.id != batch.id:
        click.echo(f"{used.name} stays in use for this size; change over with 'footlight paper use {name}'")
    else:
        click.echo("It is in use: sheets of this size that come home are taken to be of it.")
