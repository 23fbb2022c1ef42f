"""`footlight bath mixed`"""

from pathlib import Path

import click

from footlight.cli.bath import options
from footlight.cli.options import hint, json_option, notebook_option, print_json
from footlight.notebook.stock.baths import KINDS, Mixed


@click.command
@options.names
@click.option("--volume", metavar="VOLUME", help="How much: '1 l'. Without it: as much as the last time.")
@click.option("--formula", default="", metavar="NAME|FILE", help="What it was mixed from (`mix formulas`).")
@click.option(
    "--kind", type=click.Choice(KINDS), help="What sort of bath, where neither name nor formula tells."
)
@click.option(
    "--from", "made_from", default="", metavar="WORDS", help="In your words: '35 % stock, opened May'."
)
@options.at
@notebook_option
@json_option
def command(
    names: tuple[str, ...],
    volume: str | None,
    formula: str,
    kind: str | None,
    made_from: str,
    moment: str,
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
    from footlight.cli.bath import filling
    from footlight.notebook.book import notebook
    from footlight.notebook.stock import baths
    from footlight.quantities import parse_volume_ml

    present_s = options.now_s()
    at_s = options.said_moment(moment, present_s)
    said = filling.Said(parse_volume_ml(volume, "--volume") if volume else None, formula, kind, made_from)
    with notebook(book, writing=True) as connection:
        mixed = [filling.filled(connection, name, said, at_s) for name in _once(names)]
        ids = baths.mix(connection, mixed, present_s)
        used = {bath.id for bath in baths.in_use(connection)}
    if as_json:
        print_json([{"id": bath_id} | vars(one) for bath_id, one in zip(ids, mixed, strict=True)])
        return
    for bath_id, one in zip(ids, mixed, strict=True):
        click.echo(mixed_text(one))
        if bath_id not in used:
            click.echo(f"! {one.name}: one that was mixed later is in use; this one counts until then.")
    hint("Take it back with 'footlight undo'.")


def mixed_text(one: Mixed) -> str:
    """`bleach: 1000 mL, peroxide bleach, 35 % stock; mixed 2026-11-25 18:30`."""
    from footlight.quantities import format_volume_ml
    from footlight.views.times import date_text

    # Most trays and formulas are called after what they hold: 'clearing bath'.
    kind = "" if one.kind in (one.name, *one.formula.split()) else one.kind
    listed = ", ".join(filter(None, [format_volume_ml(one.volume_ml), kind, one.formula, one.made_from]))
    return f"{one.name}: {listed}; mixed {date_text(one.mixed_unix_s)}"


def _once(names: tuple[str, ...]) -> list[str]:
    from footlight.errors import InputError
    from footlight.notebook.stock.baths import tidy

    tidied = [tidy(name) for name in names]
    if not names:
        raise InputError("NAME: which bath? Call it as the sequence calls its tray, for example 'bleach'")
    if len({name.casefold() for name in tidied}) < len(tidied):
        raise InputError("NAME: the same bath is named twice")
    return tidied
