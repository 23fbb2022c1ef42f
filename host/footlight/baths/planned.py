"""Which tray each step of a sequence is in, from a sequence file as it was sent or as it was loaded."""

import tomllib
from collections.abc import Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from footlight.errors import InputError
from footlight.quantities import parse_sheet

if TYPE_CHECKING:
    from footlight.sequence.model import Sequence

_ONE_SHEET = ("one sheet", "1 sheet")


@dataclass(frozen=True)
class Planned:
    """trays: of each step in order, '' for a step without one. one_sheet: trays that are filled anew for
    each sheet. lives: how many sheets a filling lasts, by tray. sheet_8x10: area of the paper in sheets of
    8x10, None where the sequence does not say."""

    trays: tuple[str, ...]
    one_sheet: frozenset[str]
    lives: dict[str, int]
    sheet_8x10: float | None

    def visits(self) -> list[tuple[int, str]]:
        """(step, tray) for each visit that a sheet pays as planned; steps are counted from 1."""
        return merged(enumerate(self.trays, start=1))


def merged(steps: Iterable[tuple[int, str]]) -> list[tuple[int, str]]:
    """Steps that follow one another in the same tray are one visit: its first (step, tray)."""
    visits: list[tuple[int, str]] = []
    for step, tray in steps:
        if tray and (not visits or visits[-1][1] != tray):
            visits.append((step, tray))
    return visits


def of_sequence(sequence: "Sequence") -> Planned:
    """Of a sequence that was loaded."""
    trays = tuple(tray.name if (tray := getattr(step, "tray", None)) else "" for step in sequence.steps)
    lives = {tray.name: tray.life_sheets for tray in sequence.trays if tray.life_sheets > 1}
    one_sheet = frozenset(tray.name for tray in sequence.trays if tray.life_sheets == 1)
    return Planned(trays, one_sheet, lives, sequence.sheet.as_8x10 if sequence.sheet else None)


def of_source(source: str) -> Planned | None:
    """Of the text of a sequence file, None where it is no such text.

    It was checked when it was sent, perhaps by another version: what cannot be read is left out.
    """
    try:
        table = tomllib.loads(source)
    except tomllib.TOMLDecodeError:
        return None
    steps, trays = table.get("step"), table.get("trays", {})
    if not isinstance(steps, list) or not isinstance(trays, dict):
        return None
    lives = {name: str(tray.get("life", "")) for name, tray in trays.items() if isinstance(tray, dict)}
    return Planned(
        tuple(str(step.get("tray", "")) for step in steps),
        frozenset(name for name, life in lives.items() if life in _ONE_SHEET),
        {name: count for name, life in lives.items() if (count := _sheets(life)) > 1},
        area_of(table.get("sheet")),
    )


def _sheets(life: str) -> int:
    count, _, noun = life.partition(" ")
    return int(count) if noun == "sheets" and count.isdigit() else 0


def area_of(written: object) -> float | None:
    """A sheet's area in sheets of 8x10 from its size as written; None where it cannot be read."""
    try:
        return parse_sheet(written, "sheet").as_8x10 if written else None
    except InputError:
        return None
