"""What really stands in the trays of a sequence: baths as they were mixed win over what the file says.

A label, a plan and a check list that tell of the file's bath while another stands in the tray are worse than
none: 12 % peroxide burns an eye where 6 % irritates it.
"""

import sqlite3
from collections.abc import Mapping
from dataclasses import dataclass, replace

from footlight.chemistry.formula import Formula, Ingredient, amount_text, from_text
from footlight.errors import InputError
from footlight.notebook.stock import baths, since
from footlight.quantities.age import format_age_h
from footlight.sequence.model import Sequence, Tray

# Nearer than this two amounts are the same bath: a measuring jug is read to a few parts in a hundred.
_SAME = 0.05


@dataclass(frozen=True)
class Standing:
    """The bath in a tray. holds: what it was mixed from, None where only its name was written."""

    tray: str
    mixed_unix_s: int
    age: str
    holds: Formula | None


def standing(connection: sqlite3.Connection, sequence: Sequence, now_s: int) -> dict[str, Standing]:
    """Tray -> the bath that stands in it at `now_s` [s since 1970]; trays without one are left out."""
    known = baths.every(connection)
    there = {tray.name: since.bath_at(known, tray.name, now_s) for tray in sequence.trays}
    return {
        name: Standing(name, bath.mixed_unix_s, format_age_h(bath.age_h(now_s)), _holds(bath.holds))
        for name, bath in there.items()
        if bath is not None
    }


def as_it_stands(sequence: Sequence, stands: Mapping[str, Standing]) -> Sequence:
    """The sequence with what was really mixed in its trays; the rest of it as it is."""
    trays = {tray.name: _with(tray, stands.get(tray.name)) for tray in sequence.trays}
    steps = tuple(
        replace(step, tray=trays[tray.name]) if (tray := getattr(step, "tray", None)) else step
        for step in sequence.steps
    )
    return replace(sequence, trays=tuple(trays.values()), steps=steps)


def mismatches(sequence: Sequence, stands: Mapping[str, Standing]) -> dict[str, str]:
    """Tray -> how the bath in it differs from the one that the sequence was written for, in a sentence."""
    told = {}
    for tray in sequence.trays:
        stand = stands.get(tray.name)
        if stand is None or stand.holds is None or tray.mixed is None:
            continue
        differing = _differences(stand.holds, tray.mixed)
        if differing:
            told[tray.name] = (
                f"{tray.name}: what stands there is not the sequence's bath: {'; '.join(differing)}; "
                "mix it anew, or name its own formula in the sequence"
            )
    return told


def _holds(text: str) -> Formula | None:
    try:
        return from_text(text) if text else None
    except InputError:
        return None  # of another version: its name is all that is known


def _with(tray: Tray, stand: Standing | None) -> Tray:
    if stand is None or stand.holds is None:
        return tray
    return replace(tray, mixed=stand.holds, formula=stand.holds.name)


def _differences(there: Formula, planned: Formula) -> list[str]:
    """`hydrogen peroxide 12 % w/w where it says 6 % w/w`, for each thing that is otherwise."""
    ours = {one.what: one for one in there.ingredients}
    theirs = {one.what: one for one in planned.ingredients}
    told = []
    for what in dict.fromkeys([*ours, *theirs]):
        one, other = ours.get(what), theirs.get(what)
        if one is None or other is None or not _alike(_share(one, there), _share(other, planned)):
            here = amount_text(one, there.makes_ml) if one else f"no {what}"
            said = amount_text(other, planned.makes_ml) if other else "none"
            told.append(f"{here} where it says {said.removeprefix(f'{what} ')}")
    return told


def _share(one: Ingredient, formula: Formula) -> tuple[str, float]:
    """(way, amount): comparable between baths of any volume."""
    if one.percent_ww is not None:
        return "w/w", one.percent_ww
    if one.dilution is not None:
        return "of stock", one.dilution.fraction
    if one.mass_g is not None:
        form = f" {one.form}" if one.form else ""
        return f"g/L{form}", 1000 * one.mass_g / formula.makes_ml
    return "mL/L", 1000 * (one.volume_ml or 0.0) / formula.makes_ml


def _alike(one: tuple[str, float], other: tuple[str, float]) -> bool:
    return one[0] == other[0] and abs(one[1] - other[1]) <= _SAME * max(one[1], other[1])
