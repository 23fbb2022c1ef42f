"""What was really poured together: peroxide, water and citric acid, as the formula of the bath they make."""

from collections.abc import Iterable
from dataclasses import dataclass

from footlight.chemistry.citric import Form
from footlight.chemistry.formula import CITRIC, PEROXIDE, Formula, Ingredient
from footlight.chemistry.peroxide import of_parts


@dataclass(frozen=True)
class PeroxidePart:
    """ww: strength [% w/w], 0 for water; volume_ml [mL]."""

    ww: float
    volume_ml: float


@dataclass(frozen=True)
class CitricPart:
    """mass_g [g] of one form."""

    mass_g: float
    form: Form


Part = PeroxidePart | CitricPart


def formula_of_parts(parts: Iterable[Part], name: str = "bleach as poured") -> Formula:
    """The bath that the parts make; the acid's own volume is left out, as `scaled` does.

    Raises InputError for no liquid, and for peroxide beyond its table.
    """
    every = tuple(parts)
    made, volume_ml = of_parts((part.ww, part.volume_ml) for part in every if isinstance(part, PeroxidePart))
    acids = [part for part in every if isinstance(part, CitricPart)]
    ingredients = [Ingredient(CITRIC, mass_g=part.mass_g, form=part.form) for part in acids]
    peroxides = [Ingredient(PEROXIDE, percent_ww=made.ww)] if made.ww else []
    return Formula(name, "bleach", volume_ml, (*ingredients, *peroxides))
