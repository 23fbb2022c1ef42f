"""`footlight mix strength`"""

import click

from footlight.cli.options import json_option, print_json, say
from footlight.errors import field


@click.command
@click.argument("parts", nargs=-1, required=True)
@json_option
def command(parts: tuple[str, ...], as_json: bool) -> None:
    """What strength PARTS really have, poured together; or one strength said in all three ways.

    \b
        footlight mix strength "35 % w/w"
        footlight mix strength "30 % w/w, 100 mL" "water, 200 mL"
        footlight mix strength "10 % w/w, 800 mL" "35 % w/w, 50 mL"
    """
    from footlight.actions.mix_stock import one_strength, pour_together
    from footlight.views import mixes
    from footlight.views.hazards import hazard_lines
    from footlight.written.mixes import peroxide_of, peroxide_part

    if len(parts) == 1 and "," not in parts[0]:
        poured = one_strength(peroxide_of(parts[0], field("parts")))
    else:
        poured = pour_together(
            peroxide_part(text, f"part {number}") for number, text in enumerate(parts, start=1)
        )
    if as_json:
        print_json(mixes.strength_as_dict(poured))
        return
    say([*mixes.strength_lines(poured), *hazard_lines([poured.hazards])])
