"""`footlight mix bath`"""

from pathlib import Path

import click

from footlight.chemistry.citric import FORMS
from footlight.chemistry.scaled import AtHand, Batch
from footlight.cli.mix import options
from footlight.cli.options import json_option, notebook_option, print_json, say
from footlight.errors import InputError, field
from footlight.quantities.table import choice


@click.command
@click.argument("formula")
@click.argument("volume", required=False)
@click.option("--stock", metavar="STRENGTH", help="What the peroxide bottle's label says: '35 % w/w'.")
@click.option("--citric", metavar="FORM", help="The form of citric acid that you have.")
@options.in_tray
@options.depth
@options.rim
@click.option("--keep", metavar="NAME", help="Also write it into the notebook, as the bath in the tray NAME.")
@notebook_option
@json_option
def command(
    formula: str,
    volume: str | None,
    stock: str | None,
    citric: str | None,
    tray: str | None,
    depth: str,
    rim: str | None,
    keep: str | None,
    book: Path,
    as_json: bool,
) -> None:
    """A whole bath for a VOLUME (or a tray): what to weigh and pour, in order, and what to wear.

    FORMULA is a formula that comes along (`footlight mix formulas`) or a TOML file of your own.

    \b
        footlight mix bath fixer "1.5 L"
        footlight mix bath peroxide-bleach "1 L" --stock "35 % w/w" --citric anhydrous
        footlight mix bath my-bleach.toml --stock "30 % w/w" --tray "9.5x12 in" --depth "15 mm"
        footlight mix bath peroxide-bleach "1 L" --stock "35 % w/w" --keep bleach
    """
    from footlight.actions.measure_bath import measure_bath
    from footlight.views import mixes
    from footlight.written.mixes import formula as read_formula
    from footlight.written.mixes import peroxide_of

    asked = options.volume_of(volume, tray, depth, rim)
    if asked is None:
        raise InputError(f"{field('volume')}: give a volume, '1 L', or a tray, {field('tray')} '9.5x12 in'")
    stock_ww = peroxide_of(stock, field("stock")).ww if stock else None
    form = choice(citric, FORMS, field("citric")) if citric else None
    at_hand = AtHand(stock_ww, form)  # pyright: ignore[reportArgumentType]
    bath = measure_bath(read_formula(formula), asked.volume_ml, at_hand)
    kept = _kept(bath.batch, keep, book) if keep is not None else ""
    if as_json:
        print_json(mixes.bath_as_dict(bath, asked.notes, keep))
        return
    say(mixes.bath_lines(bath), asked.notes)
    say([kept] if kept else [])
    say(mixes.bath_safety_lines(bath))


def _kept(batch: Batch, name: str, book: Path) -> str:
    """Write the bath into the notebook as mixed now -> what was written, in a line."""
    import time

    from footlight.actions.mix_baths import Mixture, mix_bath
    from footlight.views.baths import mixed_text

    made_from = ", ".join(measure.amount for measure in batch.measures)
    mixture = Mixture(batch.volume_ml, batch.formula, batch.formula.kind, made_from)
    return f"kept: {mixed_text(mix_bath(book, name, mixture, int(time.time())).mixed)}"
