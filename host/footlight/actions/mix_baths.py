"""Baths are mixed: what is not said of one is as the last time, or as the sequence of its tray says."""

import re
import sqlite3
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from footlight.chemistry.formula import Formula, as_text
from footlight.chemistry.hazards import formula_named
from footlight.errors import InputError, field
from footlight.kinds import BATH_KINDS, FormulaKind
from footlight.notebook.book import notebook
from footlight.notebook.journal import programs
from footlight.notebook.stock import baths
from footlight.notebook.stock.baths import Bath, Mixed

_LEAST_ML, _MOST_ML = 20.0, 500_000.0
# How trays are called, and what stands in them. Common practice, no source.
_CALLED: dict[FormulaKind, str] = {
    "developer": "dev",
    "bleach": "bleach",
    "clearing": "clear",
    "fixer": "fix",
}


@dataclass(frozen=True)
class Mixture:
    """What is said of a bath; None or '' where nothing is. volume_ml [mL]; made_from: in words."""

    volume_ml: float | None = None
    formula: Formula | None = None
    kind: str | None = None
    made_from: str = ""


@dataclass(frozen=True)
class MixedBath:
    """A bath as it was written. is_in_use: no later one of its name was mixed."""

    id: int
    mixed: Mixed
    is_in_use: bool


def mix_baths(
    book: Path, names: Sequence[str], mixture: Mixture, mixed_unix_s: int, now_s: int
) -> list[MixedBath]:
    """Write baths as mixed, all or none. Raises InputError where what is said and known does not suffice."""
    tidied = _each_once(names)
    with notebook(book, writing=True) as connection:
        return _written(
            connection, [_filled(connection, name, mixture, mixed_unix_s) for name in tidied], now_s
        )


def mix_bath(book: Path, name: str, mixture: Mixture, now_s: int) -> MixedBath:
    """Write one bath of which all is said as mixed now. Raises InputError for a name or volume of none."""
    volume_ml, kind = mixture.volume_ml, mixture.kind
    assert volume_ml is not None and kind is not None
    formula = mixture.formula.name if mixture.formula else ""
    holds = as_text(mixture.formula) if mixture.formula else ""
    mixed = Mixed(_tray_name(name), formula, mixture.made_from, kind, volume_ml, now_s, holds=holds)
    mixed = _checked(mixed)
    with notebook(book, writing=True) as connection:
        return _written(connection, [mixed], now_s)[0]


def _written(connection: sqlite3.Connection, mixed: list[Mixed], now_s: int) -> list[MixedBath]:
    ids = baths.mix(connection, mixed, now_s)
    in_use = {bath.id for bath in baths.in_use(connection)}
    return [MixedBath(bath_id, bath, bath_id in in_use) for bath_id, bath in zip(ids, mixed, strict=True)]


def _each_once(names: Sequence[str]) -> list[str]:
    if not names:
        raise InputError(
            f"{field('names')}: which bath? Call it as the sequence calls its tray, for example 'bleach'"
        )
    tidied = [baths.tidy(name) for name in names]
    if len({name.casefold() for name in tidied}) < len(tidied):
        raise InputError(f"{field('names')}: the same bath is named twice")
    return tidied


def _filled(connection: sqlite3.Connection, name: str, mixture: Mixture, mixed_unix_s: int) -> Mixed:
    """The bath, from what is said and what is known."""
    tray = _tray_name(name)
    before = next(iter(reversed(baths.every(connection, tray))), None)
    volume_ml = mixture.volume_ml or (before.volume_ml if before else None)
    if volume_ml is None:
        raise InputError(
            f"{tray}: how much? It is the first of that name; write for example {field('volume')} '1 l'"
        )
    formula, kind = _formula(connection, tray, mixture, before)
    as_before = before.made_from if before is not None and formula == before.formula else ""
    made_from, holds = mixture.made_from or as_before, _held(mixture, before, formula)
    return _checked(Mixed(tray, formula, made_from, kind, volume_ml, mixed_unix_s, holds=holds))


def _held(mixture: Mixture, before: Bath | None, name: str) -> str:
    """What is in it: the formula that is said, else that of the last time, else the shipped one."""
    if mixture.formula:
        return as_text(mixture.formula)
    if before is not None and before.formula == name and before.holds:
        return before.holds
    shipped = formula_named(name) if name else None
    return as_text(shipped) if shipped else ""


def _checked(mixed: Mixed) -> Mixed:
    if not _LEAST_ML <= mixed.volume_ml <= _MOST_ML:
        raise InputError(f"{mixed.name}: {mixed.volume_ml:g} mL is no bath; allowed is 20 mL to 500 L")
    return mixed


def _tray_name(name: str) -> str:
    tidy = baths.tidy(name)
    if not re.fullmatch(r"[!-~](?:[ -~]{0,22}[!-~])?", tidy):
        raise InputError(
            f"{field('names')}: '{name[:40]}' is no tray's name; write 1 to 24 printable characters"
        )
    return tidy


def _formula(
    connection: sqlite3.Connection, tray: str, mixture: Mixture, before: Bath | None
) -> tuple[str, str]:
    """(name of the formula or '', kind)."""
    if mixture.formula:
        return mixture.formula.name, mixture.kind or mixture.formula.kind
    if before is not None and mixture.kind in (None, before.kind):
        return before.formula, before.kind
    recipe = formula_named(programs.last_formula(connection, tray))
    if recipe is not None and mixture.kind in (None, recipe.kind):
        return recipe.name, recipe.kind
    return "", mixture.kind or _guessed(tray)


def _guessed(tray: str) -> str:
    for kind, beginning in _CALLED.items():
        if any(word.startswith(beginning) for word in tray.casefold().split()):
            return kind
    kinds = ", ".join(BATH_KINDS)
    raise InputError(
        f"{tray}: what sort of bath is it? Write {field('kind')} with one of {kinds}, or {field('formula')}"
    )
