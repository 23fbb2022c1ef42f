"""`footlight mix citric`"""

import click

from footlight import quantities as q
from footlight.chemistry.citric import FORMS, Form, converted_g, spoons
from footlight.chemistry.hazards import hazards_for
from footlight.chemistry.scaled import format_mass_g
from footlight.cli.mix import options
from footlight.cli.options import json_option, print_json, say
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
    mass_g = q.parse_mass_g(mass, "MASS")
    asked: Form = choice(form, FORMS, "FORM")  # pyright: ignore[reportAssignmentType]
    held: Form = choice(have or form, FORMS, "--have")  # pyright: ignore[reportAssignmentType]
    grams = converted_g(mass_g, asked, held)
    level, hazards = spoons(grams), hazards_for("citric acid")
    if as_json:
        print_json(
            {
                "form": held,
                "mass_g": round(grams, 4),
                "level_teaspoons": level.count,
                "spoons_g": level.mass_g,
                "spoons_off_g": level.off_g,
                "safety": hazards.as_dict(),
            }
        )
        return
    say([f"{format_mass_g(grams)} {held}", f"  or {level}"])
    options.say_hazards([hazards])
