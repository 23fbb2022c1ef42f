"""Citric acid, dry or with its water of crystallisation: grams first, level spoons only as a last resort."""

import math
from dataclasses import dataclass
from typing import Literal

from footlight.chemistry.dilution import above_zero

Form = Literal["anhydrous", "monohydrate"]
FORMS: tuple[Form, ...] = ("anhydrous", "monohydrate")
# g/mol, IUPAC atomic weights: C6H8O7 and C6H8O7·H2O.
MOLAR_G: dict[Form, float] = {"anhydrous": 192.124, "monohydrate": 210.139}

# A level teaspoon: 5 mL by food labelling (21 CFR 101.9), 4.5 g of fine crystals in it, give or take
# half a gram for grain and levelling (4 to 5 g: common practice, no source).
TEASPOON_ML = 5.0
TEASPOON_G = 4.5
TEASPOON_OFF_G = 0.5
# A tablespoon is three of them: 15 mL (21 CFR 101.9).
SPOONS_G = {"teaspoon": TEASPOON_G, "tablespoon": 3 * TEASPOON_G}


@dataclass(frozen=True)
class Spoons:
    """Level teaspoons: `count` of them, which is `mass_g` ± `off_g` [g]."""

    count: float
    mass_g: float
    off_g: float

    def __str__(self) -> str:
        return f"{self.count:g} level teaspoons ({self.mass_g:.3g} ± {self.off_g:.2g} g: weigh it if you can)"


def converted_g(mass_g: float, have: Form, need: Form) -> float:
    """The mass [g] in the form `need` that holds as much acid as `mass_g` [g] of the form `have`.

    Raises `InputError` for a mass of zero or less.
    """
    above_zero(mass_g, "citric acid", "g", "20 g")
    return mass_g * MOLAR_G[need] / MOLAR_G[have]


def spoons(mass_g: float) -> Spoons:
    """The nearest half level teaspoons to `mass_g` [g], never none, and what they weigh.

    The doubt of one spoon is taken as common to all (one hand, one grain), so it grows with their number.
    Raises `InputError` for a mass of zero or less.
    """
    above_zero(mass_g, "citric acid", "g", "20 g")
    count = max(0.5, math.floor(2 * mass_g / TEASPOON_G + 0.5) / 2)
    return Spoons(count, count * TEASPOON_G, count * TEASPOON_OFF_G)
