"""What is written about a mix: strengths of peroxide, parts that are poured together, ranges, substances."""

import re
from pathlib import Path

from footlight import quantities as q
from footlight.chemistry import peroxide, shelf
from footlight.chemistry.citric import FORMS, SPOONS_G, Form
from footlight.chemistry.formula import CITRIC, Formula, formula_of
from footlight.chemistry.hazards import formula_named, substance_named
from footlight.chemistry.poured import CitricPart, PeroxidePart
from footlight.errors import InputError
from footlight.quantities.table import choice

WATER = "water"
# A volume, a mass, or level spoons.
_AMOUNT = r"[\d.]+\s*(?:ml|cl|dl|l|g|kg|(?:level\s+)?(?:tea|table)spoons?)\b"


def peroxide_of(text: str, what: str) -> peroxide.Solution:
    """Peroxide by its written strength: `35 % w/w`, `110 vol`."""
    return peroxide.solution(q.parse_strength(text, what), what)


def part(text: str, what: str) -> PeroxidePart | CitricPart:
    """What was poured or spooned in: `30 % w/w, 100 mL`, `100 mL of 30 % w/w`, `water, 200 mL`, `citric acid,
    1 level tablespoon`. Raises InputError for anything else."""
    amount, thing = _amount_and_thing(text, what)
    if thing.lower().startswith(CITRIC):
        return CitricPart(_citric_g(amount, what), _citric_form(thing, what))
    strength = re.sub(r"(?i)\b(of|hydrogen|peroxide)\b", "", thing).strip(" ,")
    if not strength:
        raise InputError(f"{what}: '{text}' does not say how strong; write for example '30 % w/w, 100 mL'")
    ww = 0.0 if strength.lower() == WATER else _part_ww(strength, what)
    return PeroxidePart(ww, q.parse_volume_ml(amount, what))


def _part_ww(strength: str, what: str) -> float:
    if not any(char.isdigit() for char in strength):
        raise InputError(
            f"{what}: '{strength[:40]}' is neither water, peroxide by its strength, nor citric acid; for what"
            " else is in the bath write a formula of your own"
        )
    return peroxide_of(strength, what).ww


def _amount_and_thing(text: str, what: str) -> tuple[str, str]:
    """(`100 mL`, `30 % w/w`), whichever stands first."""
    if first := re.match(rf"\s*({_AMOUNT})[\s,]+(?:of\s+)?(.+)$", text, re.IGNORECASE):
        return first[1], first[2].strip()
    if last := re.match(rf"(.+?)[\s,]+({_AMOUNT})\s*$", text, re.IGNORECASE):
        return last[2], last[1].strip(" ,")
    raise InputError(
        f"{what}: '{text}' does not say how much of what; write for example '30 % w/w, 100 mL',"
        " 'water, 200 mL' or 'citric acid, 12 g'"
    )


def _citric_g(amount: str, what: str) -> float:
    spoon = re.fullmatch(r"([\d.]+)\s*(?:level\s+)?(tea|table)spoons?", amount.strip(), re.IGNORECASE)
    if spoon is None:
        return q.parse_mass_g(amount, what)
    return q.parse_number(spoon[1], what) * SPOONS_G[f"{spoon[2].lower()}spoon"]


def _citric_form(thing: str, what: str) -> Form:
    _, _, form = thing.partition(",")
    return choice(form.strip() or "monohydrate", FORMS, what)  # pyright: ignore[reportReturnType]


def substance(text: str) -> tuple[str, float | None]:
    """(name, % w/w) of `hydrogen peroxide, 35 % w/w`; None without a strength."""
    name, _, strength = (part.strip() for part in text.rpartition(","))
    if not name or substance_named(text):
        return text, None
    written = q.parse_strength(strength, name)
    return name, written.value if written.basis == "w/w" else peroxide_of(strength, name).ww


def span(text: str | None, what: str) -> tuple[float, float] | None:
    """`15 to 50`; None where nothing is written."""
    if text is None:
        return None
    least, to, most = (part.strip() for part in text.partition(" to "))
    if not to:
        raise InputError(f"{what}: '{text}' is no range; write for example '15 to 50'")
    return q.parse_number(least, what), q.parse_number(most, what)


def depth_or_volume(text: str, what: str) -> tuple[float, bool]:
    """(15, True) of `15 mm` [mm], (1500, False) of `1.5 L` [mL]."""
    try:
        return q.parse_length_mm(text, what), True
    except InputError as not_a_length:
        try:
            return q.parse_volume_ml(text, what), False
        except InputError:
            raise not_a_length from None


def formula(text: str) -> Formula:
    """A formula that comes along, by any of its names, or a TOML file. Raises InputError for neither."""
    if not text.endswith(".toml"):
        return formula_named(text) or shelf.shipped(text)
    from footlight.sequence.files import read_toml

    file = read_toml(Path(text), "a bath formula")
    return formula_of(file.table, file.head.of)
