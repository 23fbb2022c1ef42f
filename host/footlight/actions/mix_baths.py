"""A bath to be written, with all filled in that is known: from the last of its name, or from the sequence."""

import re
import sqlite3
from dataclasses import dataclass

from footlight.chemistry.hazards import formula_named
from footlight.errors import InputError
from footlight.notebook.journal import programs
from footlight.notebook.stock import baths
from footlight.notebook.stock.baths import Bath, Mixed
from footlight.written.mixes import formula as read_formula

_LEAST_ML, _MOST_ML = 20.0, 500_000.0
# How trays are called, and what stands in them. Common practice, no source.
_CALLED = {"developer": "dev", "bleach": "bleach", "clearing": "clear", "fixer": "fix"}


@dataclass(frozen=True)
class Said:
    """What was typed of a bath; None or '' where nothing was. formula: a name or a file."""

    volume_ml: float | None = None
    formula: str = ""
    kind: str | None = None
    made_from: str = ""


def filled(connection: sqlite3.Connection, name: str, said: Said, mixed_unix_s: int) -> Mixed:
    """The bath, from what was said and what is known. Raises InputError where that does not suffice."""
    tidy = _named(name)
    before = next(iter(reversed(baths.every(connection, tidy))), None)
    volume_ml = said.volume_ml or (before.volume_ml if before else None)
    if volume_ml is None:
        raise InputError(f"{tidy}: how much? It is the first of that name; write for example --volume '1 l'")
    formula, kind = _formula(connection, tidy, said, before)
    as_before = before is not None and formula == before.formula
    made_from = said.made_from or (before.made_from if before and as_before else "")
    return as_said(tidy, Said(volume_ml, formula, kind, made_from), mixed_unix_s)


def as_said(name: str, said: Said, mixed_unix_s: int) -> Mixed:
    """A bath of which all was said. Raises InputError for a name or a volume that no bath has."""
    tidy = _named(name)
    assert said.volume_ml is not None and said.kind is not None
    if not _LEAST_ML <= said.volume_ml <= _MOST_ML:
        raise InputError(f"{tidy}: {said.volume_ml:g} mL is no bath; allowed is 20 mL to 500 L")
    return Mixed(tidy, said.formula, said.made_from, said.kind, said.volume_ml, mixed_unix_s)


def _named(name: str) -> str:
    tidy = baths.tidy(name)
    if not re.fullmatch(r"[!-~](?:[ -~]{0,22}[!-~])?", tidy):
        raise InputError(f"NAME: '{name[:40]}' is no tray's name; write 1 to 24 printable characters")
    return tidy


def _formula(connection: sqlite3.Connection, name: str, said: Said, before: Bath | None) -> tuple[str, str]:
    """(name of the formula or '', kind)."""
    if said.formula:
        recipe = read_formula(said.formula)
        return recipe.name, said.kind or recipe.kind
    if before is not None and said.kind in (None, before.kind):
        return before.formula, before.kind
    recipe = formula_named(programs.last_formula(connection, name))
    if recipe is not None and said.kind in (None, recipe.kind):
        return recipe.name, recipe.kind
    return "", said.kind or _guessed(name)


def _guessed(name: str) -> str:
    for kind, beginning in _CALLED.items():
        if any(word.startswith(beginning) for word in name.casefold().split()):
            return kind
    kinds = ", ".join(baths.KINDS)
    raise InputError(f"{name}: what sort of bath is it? Write --kind with one of {kinds}, or --formula")
