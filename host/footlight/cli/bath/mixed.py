"""`footlight bath mixed`"""

from pathlib import Path

import click

from footlight.cli.bath import options
from footlight.cli.options import hint, json_option, notebook_option, print_json
from footlight.cli.types import Quantity
from footlight.kinds import BATH_KINDS


@click.command
@options.names
@click.option(
    "--volume",
    "volume_ml",
    metavar="VOLUME",
    type=Quantity("parse_volume_ml"),
    help="How much: '1 l'. Without it: as much as the last time.",
)
@click.option("--formula", default="", metavar="NAME|FILE", help="What it was mixed from (`mix formulas`).")
@click.option(
    "--kind", type=click.Choice(BATH_KINDS), help="What sort of bath, where neither name nor formula tells."
)
@click.option(
    "--from", "made_from", default="", metavar="WORDS", help="In your words: '35 % stock, opened May'."
)
@options.at
@notebook_option
@json_option
def command(
    names: tuple[str, ...],
    volume_ml: float | None,
    formula: str,
    kind: str | None,
    made_from: str,
    at_s: int,
    book: Path,
    as_json: bool,
) -> None:
    """Baths were mixed: each NAME as the sequence calls its tray. One of the same name is thereby replaced.

    What is not said is as the last time, or as the tray of the sequence that was sent last says.

    \b
        footlight bath mixed bleach --volume "1 l" --formula peroxide-bleach --from "35 % stock, opened May"
        footlight bath mixed developer bleach clear fixer
        footlight bath mixed fixer --volume "1.5 l" --at "yesterday 18:30"
    """
    from footlight.actions.mix_baths import Mixture, mix_baths
    from footlight.views.baths import mixed_text
    from footlight.written.mixes import formula as read_formula

    recipe = read_formula(formula) if formula else None
    mixed = mix_baths(book, names, Mixture(volume_ml, recipe, kind, made_from), at_s, options.now_s())
    if as_json:
        print_json([{"id": bath.id} | vars(bath.mixed) for bath in mixed])
        return
    for bath in mixed:
        click.echo(mixed_text(bath.mixed))
        if not bath.is_in_use:
            name = bath.mixed.name
            click.echo(f"! {name}: one that was mixed later is in use; this one counts until then.")
    hint("Take it back with 'footlight undo'.")
