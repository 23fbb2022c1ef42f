"""`footlight page card`"""

from pathlib import Path

import click

from footlight.cli.options import replace_option
from footlight.cli.page import shared


@click.command("card")
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--setups", type=click.Path(path_type=Path), help="Another light-setups file than FILE names.")
@click.option(
    "--finish",
    multiple=True,
    metavar="TEXT",
    help="What is done last, by no clock, instead of the usual; as many as wanted.",
)
@shared.paper_option
@shared.out_option
@replace_option
def command(
    file: Path, setups: Path | None, finish: tuple[str, ...], paper: str, out: Path | None, replace: bool
) -> None:
    """The wall card of sequence FILE: one page, its times read from two metres.

    Each step with the place of its tray, its tongs, time, lift and agitation; each light with lens, stop and
    height; what to wear, what must not meet; and what is done by no clock.

    \b
    Example:
      footlight page card reversal-print.toml
      footlight page card reversal-print.toml --paper letter --finish "press under glass" --out wall.html
    """
    from footlight import sequence
    from footlight.cli.options import hint
    from footlight.report.pages import card, card_of

    compiled = sequence.compile(sequence.load(file, setups))
    made = card.printed(card_of.card_of(compiled, finish or None), paper)
    target = out or Path(f"{file.stem}-card.html")
    shared.write(target, made.html, replace)
    click.echo(f"{target}: {len(compiled.sequence.steps)} steps, digits of {made.digits_mm:.1f} mm")
    if made.digits_mm < card.DIGITS_MM:
        metres = 2 * made.digits_mm / card.DIGITS_MM
        click.echo(
            f"! so many steps make small type: hang it where you read it from {metres:.1f} m", err=True
        )
    for step in card_of.cut_notes(compiled):
        click.echo(f"! the note of step {step} is cut; 'footlight plan {file}' has it whole", err=True)
    hint("Open it in a browser and print it, without headers and footers.")
