"""What is written about a mix: strengths of peroxide, parts that are poured together, ranges, substances."""

from pathlib import Path

from footlight import quantities as q
from footlight.chemistry import peroxide, shelf
from footlight.chemistry.formula import Formula, formula_of
from footlight.chemistry.hazards import formula_named, substance_named
from footlight.errors import InputError

WATER = "water"


def peroxide_of(text: str, what: str) -> peroxide.Solution:
    """Peroxide by its written strength: `35 % w/w`, `110 vol`."""
    return peroxide.solution(q.parse_strength(text, what), what)


def peroxide_part(text: str, what: str) -> tuple[float, float]:
    """(% w/w, mL) of `35 % w/w, 100 mL` or `water, 200 mL`."""
    strength, _, volume = (piece.strip() for piece in text.partition(","))
    if not volume:
        raise InputError(f"{what}: '{text}' has no volume; write for example '35 % w/w, 100 mL'")
    ww = 0.0 if strength.lower() == WATER else peroxide_of(strength, what).ww
    return ww, q.parse_volume_ml(volume, what)


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
