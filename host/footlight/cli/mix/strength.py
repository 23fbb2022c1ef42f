"""`footlight mix strength`"""

from pathlib import Path

import click

from footlight.actions.mix_stock import PouredPeroxide
from footlight.cli.options import json_option, notebook_option, print_json, say
from footlight.errors import InputError, field


@click.command
@click.argument("parts", nargs=-1, required=True)
@click.option("--keep", metavar="NAME", help="Also write it into the notebook, as the bath in the tray NAME.")
@notebook_option
@json_option
def command(parts: tuple[str, ...], keep: str | None, book: Path, as_json: bool) -> None:
    """What PARTS really make, poured together: strength, hazards; or one strength said in all three ways.

    Parts are peroxide by its strength, water, and citric acid by mass or in level spoons (a level teaspoon
    holds 4 to 5 g: weigh it if you can). Kept as the bath of a tray, labels and check lists go by it.

    \b
        footlight mix strength "35 % w/w"
        footlight mix strength "100 mL of 30 % w/w" "200 mL water"
        footlight mix strength "300 mL of 9 % w/w" "200 mL water" "citric acid, 2 teaspoons" --keep bleach
    """
    from footlight.actions.mix_stock import one_strength, pour_together
    from footlight.views import mixes
    from footlight.views.hazards import hazard_lines
    from footlight.written.mixes import part, peroxide_of

    if len(parts) == 1 and "," not in parts[0]:
        poured = one_strength(peroxide_of(parts[0], field("parts")))
    else:
        poured = pour_together(part(text, f"part {number}") for number, text in enumerate(parts, start=1))
    kept = _kept(poured, parts, keep, book) if keep is not None else ""
    if as_json:
        print_json(mixes.strength_as_dict(poured) | {"kept_as": keep})
        return
    say([*mixes.strength_lines(poured), *filter(None, [kept]), *hazard_lines([poured.hazards])])


def _kept(poured: PouredPeroxide, parts: tuple[str, ...], name: str, book: Path) -> str:
    """Write it into the notebook as mixed now -> what was written, in a line."""
    import time

    from footlight.actions.mix_baths import Mixture, mix_bath
    from footlight.views.baths import mixed_text

    if poured.formula is None:
        raise InputError(
            f"{field('keep')}: a strength alone is no bath; say how much of what was poured, for example"
            " '30 % w/w, 100 mL' 'water, 200 mL'"
        )
    mixture = Mixture(poured.volume_ml, poured.formula, poured.formula.kind, ", ".join(parts))
    return f"kept: {mixed_text(mix_bath(book, name, mixture, int(time.time())).mixed)}"
