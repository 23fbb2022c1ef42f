"""Bath formulas: what is in a bath, from a TOML table, checked.

An ingredient says how much in one of four ways, each per `makes` of finished bath:
`mass` (weighed), `volume` (poured), `dilution` (a concentrate, `1 + 9`), or `strength` (of peroxide in
the finished bath, from whatever stock is at hand).
"""

import json
from dataclasses import asdict, dataclass
from typing import Any, get_args

from footlight.chemistry.citric import FORMS, Form
from footlight.chemistry.peroxide import solution
from footlight.errors import InputError
from footlight.kinds import FormulaKind
from footlight.quantities import (
    Dilution,
    format_percent,
    parse_dilution,
    parse_mass_g,
    parse_strength,
    parse_volume_ml,
)
from footlight.quantities.table import Where, choice, inside, keys_of

PEROXIDE, CITRIC = "hydrogen peroxide", "citric acid"
_WAYS = ("mass", "volume", "dilution", "strength")
_KEYS = ("name", "kind", "makes", "about", "also", "ingredient")
_INGREDIENT_KEYS = ("what", *_WAYS, "form", "note")
_MOST_INGREDIENTS = 20


@dataclass(frozen=True)
class Ingredient:
    """One thing in a bath, and how much of it in `Formula.makes_ml` of finished bath.

    Just one of mass_g [g], volume_ml [mL], dilution, percent_ww [% w/w of the bath] is not None.
    form: of citric acid only.
    """

    what: str
    mass_g: float | None = None
    volume_ml: float | None = None
    dilution: Dilution | None = None
    percent_ww: float | None = None
    form: Form | None = None
    note: str = ""


@dataclass(frozen=True)
class Formula:
    """A bath. makes_ml: what its masses and volumes are for [mL]. also: other names it is called by."""

    name: str
    kind: FormulaKind
    makes_ml: float
    ingredients: tuple[Ingredient, ...]
    about: str = ""
    also: tuple[str, ...] = ()


def as_text(formula: Formula) -> str:
    """A formula as a text that `from_text` reads: what was really mixed, to be kept."""
    return json.dumps(asdict(formula), ensure_ascii=False)


def from_text(text: str) -> Formula:
    """The formula that `as_text` wrote. Raises InputError for any other text."""
    try:
        table = json.loads(text)
        ingredients = tuple(
            Ingredient(**{**one, "dilution": Dilution(**one["dilution"]) if one["dilution"] else None})
            for one in table["ingredients"]
        )
        return Formula(**{**table, "ingredients": ingredients, "also": tuple(table["also"])})
    except (ValueError, TypeError, KeyError) as error:
        raise InputError("formula: what a bath holds was kept by another version; mix it anew") from error


def amount_text(one: Ingredient, makes_ml: float) -> str:
    """`citric acid, monohydrate 20 g/L`: per litre, so that it holds for any volume of the bath."""
    per_l = 1000 / makes_ml
    if one.percent_ww is not None:
        return f"{one.what} {format_percent(one.percent_ww)} w/w"
    if one.dilution is not None:
        return f"{one.what} {one.dilution}"
    if one.mass_g is not None:
        form = f", {one.form}" if one.form else ""
        return f"{one.what}{form} {one.mass_g * per_l:.4g} g/L"
    assert one.volume_ml is not None, "an ingredient has just one amount"
    return f"{one.what} {one.volume_ml * per_l:.4g} mL/L"


def formula_of(table: object, where: Where) -> Formula:
    """The formula in a table that was read from a file. Raises `InputError`, one line, naming the key."""
    required = {
        "name": '"my bleach"',
        "kind": '"bleach"',
        "makes": '"1 L"',
        "ingredient": "a table: [[ingredient]]",
    }
    keys = keys_of(table, _KEYS, where, required)
    makes_ml = parse_volume_ml(keys["makes"], where("makes"))
    kind: FormulaKind = choice(keys["kind"], get_args(FormulaKind), where("kind"))  # pyright: ignore[reportAssignmentType]
    return Formula(
        name=_text(keys["name"], where("name")),
        kind=kind,
        makes_ml=makes_ml,
        ingredients=_ingredients(keys["ingredient"], where, makes_ml),
        about=_text(keys.get("about", " "), where("about")),
        also=tuple(_text(name, where("also")) for name in _list(keys.get("also", []), where("also"))),
    )


def _ingredients(written: object, where: Where, makes_ml: float) -> tuple[Ingredient, ...]:
    tables = _list(written, where("ingredient"))
    if not 1 <= len(tables) <= _MOST_INGREDIENTS:
        raise InputError(
            f"{where('ingredient')}: {len(tables)} of them; allowed is 1 to {_MOST_INGREDIENTS},"
            " each under its own [[ingredient]]"
        )
    found = tuple(
        _ingredient(table, inside(where, f"ingredient {number}"))
        for number, table in enumerate(tables, start=1)
    )
    poured_ml = sum(one.volume_ml or 0.0 for one in found)
    poured_ml += sum(makes_ml * one.dilution.fraction for one in found if one.dilution)
    if poured_ml > makes_ml * (1 + 1e-9):
        raise InputError(
            f"{where('makes')}: its volumes and concentrates come to {poured_ml:g} mL, more than the"
            f" {makes_ml:g} mL it makes"
        )
    return found


def _ingredient(table: object, where: Where) -> Ingredient:
    keys = keys_of(table, _INGREDIENT_KEYS, where, {"what": '"citric acid"'})
    what = _text(keys["what"], where("what")).lower()
    ways = [way for way in _WAYS if way in keys]
    if len(ways) != 1:
        raise InputError(
            f"{where('')} '{what}': give just one of {', '.join(_WAYS)}; here there is"
            f" {' and '.join(ways) or 'none'}"
        )
    return Ingredient(
        what, **_amount(keys, ways[0], what, where), form=_form(keys, what, where), note=_note(keys, where)
    )


def _amount(keys: dict[str, Any], way: str, what: str, where: Where) -> dict[str, Any]:
    if way == "mass":
        return {"mass_g": parse_mass_g(keys["mass"], where("mass"))}
    if way == "volume":
        return {"volume_ml": parse_volume_ml(keys["volume"], where("volume"))}
    if way == "dilution":
        return {"dilution": parse_dilution(keys["dilution"], where("dilution"))}
    if what != PEROXIDE:
        raise InputError(
            f"{where('strength')}: only '{PEROXIDE}' is given by its strength in the bath; give '{what}' by"
            " mass, volume or dilution"
        )
    return {"percent_ww": solution(parse_strength(keys["strength"], where("strength")), where("strength")).ww}


def _form(keys: dict[str, Any], what: str, where: Where) -> Form | None:
    if what != CITRIC:
        if "form" in keys:
            raise InputError(f"{where('form')}: only '{CITRIC}' has one; leave it out for '{what}'")
        return None
    if "form" not in keys:
        raise InputError(f'{where("form")} is missing; read the label: form = "monohydrate" or "anhydrous"')
    return choice(keys["form"], FORMS, where("form"))  # pyright: ignore[reportReturnType]


def _note(keys: dict[str, Any], where: Where) -> str:
    return _text(keys["note"], where("note")) if "note" in keys else ""


def _list(written: object, what: str) -> list[Any]:
    if not isinstance(written, list):
        raise InputError(f"{what}: a single value stands where a list is expected")
    return written


def _text(written: object, what: str) -> str:
    if not isinstance(written, str) or not written:
        raise InputError(f'{what}: it must be a text in quotes, for example "fixer"')
    return written.strip()
