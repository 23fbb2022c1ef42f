"""`footlight mix citric`"""

import click

from footlight import quantities as q
from footlight.chemistry.citric import FORMS, Form, converted_g, spoons
from footlight.chemistry.hazards import hazards_for
from footlight.cli.options import json_option, print_json, say
from footlight.errors import field
from footlight.quantities.table import choice


@click.command
@click.argument("mass")
@click.argument("form")
@click.option("--have", metavar="FORM", help="The form on your shelf, where it is the other one.")
@json_option
def command(mass: str, form: str, have: str | None, as_json: bool) -> None:
    """Citric acid: MASS of one FORM (anhydrous or monohydrate), as the form that you have, and in spoons.

    \b
        footlight mix citric "20 g" monohydrate
        footlight mix citric "20 g" monohydrate --have anhydrous
    """
    from footlight.views import mixes
    from footlight.views.hazards import hazard_lines

    mass_g = q.parse_mass_g(mass, field("mass"))
    asked: Form = choice(form, FORMS, field("form"))  # pyright: ignore[reportAssignmentType]
    held: Form = choice(have or form, FORMS, field("have"))  # pyright: ignore[reportAssignmentType]
    held_g = converted_g(mass_g, asked, held)
    level, hazards = spoons(held_g), hazards_for("citric acid")
    if as_json:
        print_json(mixes.citric_as_dict(held_g, held, level, hazards))
        return
    say([*mixes.citric_lines(held_g, held, level), *hazard_lines([hazards])])
