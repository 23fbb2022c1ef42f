"""The formulas that come with the tool: invented, generic starting points of common practice."""

import os.path
from functools import cache

from footlight.chemistry.formula import Formula, formula_of
from footlight.quantities.table import choice, in_file

# Name of the file -> what it is; in the order in which a sheet meets them.
NAMES = {
    "first-developer": "a metol-hydroquinone developer, from powders",
    "peroxide-bleach": "hydrogen peroxide and citric acid",
    "clearing-bath": "sodium sulfite, after a rinse",
    "second-developer": "a paper developer from its concentrate",
    "fixer": "plain fixer, from crystals",
}


def text(name: str) -> str:
    """The file of a shipped formula, to copy and change. Raises `InputError` for an unknown name."""
    known = choice(name, list(NAMES), "formula")
    # No importlib.resources: its import alone costs more than all the arithmetic of a mix.
    path = os.path.join(os.path.dirname(__file__), "formulas", f"{known}.toml")
    with open(path, encoding="utf-8") as file:
        return file.read()


@cache
def shipped(name: str) -> Formula:
    """A shipped formula by its name in NAMES. Raises `InputError` for an unknown name."""
    import tomllib

    return formula_of(tomllib.loads(text(name)), in_file(f"{name}.toml"))
