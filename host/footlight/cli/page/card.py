"""`footlight page card`"""

import time
from pathlib import Path

import click

from footlight.cli.options import notebook_option, replace_option
from footlight.cli.page import options


@click.command("card")
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--setups", type=click.Path(path_type=Path), help="Another light-setups file than FILE names.")
@click.option(
    "--finish",
    multiple=True,
    metavar="TEXT",
    help="What is done last, by no clock, instead of the usual; as many as wanted.",
)
@options.paper_option
@options.out_option
@replace_option
@notebook_option
def command(
    file: Path,
    setups: Path | None,
    finish: tuple[str, ...],
    paper: str,
    out: Path | None,
    replace: bool,
    book: Path,
) -> None:
    """The wall card of sequence FILE: one page, its times read from two metres.

    Each step with the place of its tray, its tongs, time, lift and agitation; each light with lens, stop and
    height; what to wear, what must not meet; and what is done by no clock.

    \b
    Example:
      footlight page card reversal-print.toml
      footlight page card reversal-print.toml --paper letter --finish "press under glass" --out wall.html
    """
    from footlight.actions.print_card import print_card
    from footlight.cli.options import hint

    card = print_card(file, setups, finish, paper, book, int(time.time()))
    target = out or Path(f"{file.stem}-card.html")
    options.write(target, card.html, replace)
    click.echo(f"{target}: {card.steps} steps, digits of {card.digits_mm:.1f} mm")
    if card.read_from_m is not None:
        where = f"hang it where you read it from {card.read_from_m:.1f} m"
        click.echo(f"! so many steps make small type: {where}", err=True)
    for step in card.cut_notes:
        click.echo(f"! the note of step {step} is cut; 'footlight plan {file}' has it whole", err=True)
    hint("Open it in a browser and print it, without headers and footers.")
