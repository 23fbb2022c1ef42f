"""Hazards of what stands in the trays of a sequence. What they are is `footlight.chemistry`'s to say."""

from footlight.chemistry import advice
from footlight.chemistry.hazards import Hazards, clashes_between, hazards_for, hazards_for_baths
from footlight.sequence.model import Sequence, Tray

_OXIDISER = "oxidiser"


def hazards_of(sequence: Sequence) -> list[str]:
    """A line for each bath, for baths that must not meet, and for what comes before anything said here.

    Nothing where no tray holds more than water. A bath whose make-up is not known says so.
    """
    found = list(dict.fromkeys(one for tray in sequence.trays for one in hazards_of_tray(tray)))
    if not found:
        return []
    natures = {nature for one in found for nature in one.natures}
    eye = [advice.EYE_FIRST] if _OXIDISER in natures else []
    return [*(one.short for one in found), *_never_together(found), *eye, advice.DEFER]


def _never_together(found: list[Hazards]) -> list[str]:
    """One line for two baths, whatever they do to each other."""
    what_happens: dict[str, list[str]] = {}
    for clash in clashes_between(found):
        baths, _, text = clash.partition(": ")
        what_happens.setdefault(baths, []).append(text)
    return [f"Never together: {baths}: {'; '.join(texts)}" for baths, texts in what_happens.items()]


def hazards_of_tray(tray: Tray) -> list[Hazards]:
    """Of what stands in a tray: by its formula, else by its name; nothing for water."""
    if tray.mixed is not None:
        return [hazards_for(tray.mixed)]
    return hazards_for_baths([tray.bath])
