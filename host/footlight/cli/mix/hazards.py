"""`footlight mix hazards`"""

import click

from footlight import quantities as q
from footlight.chemistry.hazards import clashes_between, hazards_for, substance_named
from footlight.cli.mix import options
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
    found = [_one(text) for text in things]
    if as_json:
        print_json({"safety": [one.as_dict() for one in found], "clashes": list(clashes_between(found))})
        return
    options.say_hazards(found)
    clashes = clashes_between(found)
    if clashes:
        click.echo("")
        say([], clashes)


def _one(text: str):
    name, _, strength = (part.strip() for part in text.rpartition(","))
    if not name or substance_named(text):
        return hazards_for(text)
    written = q.parse_strength(strength, name)
    if written.basis == "w/w":
        return hazards_for(name, written.value)
    return hazards_for(name, options.stock_of(strength, name).ww)
