"""`footlight mix hazards`"""

import click

from footlight.chemistry.hazards import clashes_between, hazards_for
from footlight.cli.options import json_option, print_json, say


@click.command
@click.argument("things", nargs=-1, required=True)
@json_option
def command(things: tuple[str, ...], as_json: bool) -> None:
    """What stocks and baths ask for: hazards by strength, what to wear, never with what, waste, rules.

    Each of THINGS is a substance, with its strength where it is dissolved, or a formula.

    \b
        footlight mix hazards "hydrogen peroxide, 35 % w/w"
        footlight mix hazards hydroquinone
        footlight mix hazards peroxide-bleach fixer
    """
    from footlight.views.hazards import hazard_lines
    from footlight.written.mixes import substance

    known = [hazards_for(*substance(text)) for text in things]
    clashes = clashes_between(known)
    if as_json:
        print_json({"safety": [hazards.as_dict() for hazards in known], "clashes": list(clashes)})
        return
    say([*hazard_lines(known), *([""] if clashes else [])], clashes)
