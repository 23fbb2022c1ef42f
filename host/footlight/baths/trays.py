"""Trays of a sequence: which are filled with something that can be used up, and how they are listed."""

from collections.abc import Iterable, Sequence

from footlight.chemistry.hazards import is_water
from footlight.sequence.model import Tray


def listed(names: Sequence[str]) -> str:
    """`developer, bleach and fixer`."""
    return " and ".join(part for part in (", ".join(names[:-1]), names[-1]) if part)


def counted(trays: Iterable[Tray]) -> list[Tray]:
    """The trays whose filling can be used up: more than water, and not filled anew for each sheet."""
    return [tray for tray in trays if tray.life_sheets != 1 and not is_water(tray.bath)]
