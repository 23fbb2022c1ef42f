"""`footlight mix bath`"""

from pathlib import Path

import click

from footlight import quantities as q
from footlight.chemistry.citric import FORMS
from footlight.chemistry.hazards import hazards_for, hazards_of_stocks
from footlight.chemistry.scaled import AtHand, Batch, scaled
from footlight.cli.mix import options
from footlight.cli.options import json_option, notebook_option, print_json, say
from footlight.errors import InputError
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
    asked = options.wanted(volume, tray, depth, rim)
    if asked is None:
        raise InputError("VOLUME: give a volume, '1 L', or a tray, --tray '9.5x12 in'")
    recipe, stock_ww = options.read_formula(formula), options.stock_of(stock, "--stock").ww if stock else None
    form = choice(citric, FORMS, "--citric") if citric else None
    batch = scaled(recipe, asked.volume_ml, AtHand(stock_ww, form))  # pyright: ignore[reportArgumentType]
    kept = _kept(batch, keep, book) if keep is not None else ""
    hazards = [hazards_for(recipe), *hazards_of_stocks(recipe, stock_ww)]
    if as_json:
        safety = [one.as_dict() for one in hazards]
        print_json(_as_dict(batch) | {"notes": asked.notes, "safety": safety, "kept_as": keep})
        return
    say(_lines(batch), asked.notes)
    say([kept] if kept else [])
    options.say_hazards(hazards[:1])
    click.echo("")
    click.echo("Before it is mixed")
    say(click.wrap_text(one.short, 104, "  ", "      ") for one in hazards[1:])


def _kept(batch: Batch, name: str, book: Path) -> str:
    """Write the bath into the notebook as mixed now -> what was written, in a line."""
    import time

    from footlight.cli.bath import filling
    from footlight.cli.bath.mixed import mixed_text
    from footlight.notebook.book import notebook
    from footlight.notebook.stock import baths

    now_s = int(time.time())
    made_from = ", ".join(measure.amount for measure in batch.measures)
    said = filling.Said(batch.volume_ml, batch.formula.name, batch.formula.kind, made_from)
    mixed = filling.as_said(name, said, now_s)
    with notebook(book, writing=True) as connection:
        baths.mix(connection, [mixed], now_s)
    return f"kept: {mixed_text(mixed)}"


def _as_dict(batch: Batch) -> dict[str, object]:
    return {
        "formula": batch.formula.name,
        "volume_ml": round(batch.volume_ml, 2),
        "begin_with_water_ml": round(batch.begin_ml, 1),
        "measures": [vars(measure) for measure in batch.measures],
    }


def _lines(batch: Batch) -> list[str]:
    total = q.format_volume_ml(batch.volume_ml)
    return [
        f"{batch.formula.name}, {total}" + (f": {batch.formula.about}" if batch.formula.about else ""),
        f"  1. water, about {q.format_volume_ml(batch.begin_ml)} to begin with",
        *(f"  {place}. {measure}" for place, measure in enumerate(batch.measures, start=2)),
        f"  {len(batch.measures) + 2}. water to make {total}",
    ]
