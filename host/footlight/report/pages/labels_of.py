"""Labels of a sequence's trays: what stands in them, by its formula and its hazards."""

from collections.abc import Mapping

from footlight.chemistry.formula import Formula, amount_text
from footlight.chemistry.hazards import Hazards
from footlight.report.pages.labels import Label
from footlight.sequence import model
from footlight.sequence.hazards import hazards_of_tray


def labels_of(sequence: model.Sequence, dated: Mapping[str, str]) -> list[Label]:
    """A label for each tray, in the order of the file. dated: tray -> when its bath was mixed, in words."""
    return [_label(tray, dated.get(tray.name, "")) for tray in sequence.trays]


def _label(tray: model.Tray, dated: str) -> Label:
    found = hazards_of_tray(tray)
    return Label(
        place=tray.place,
        tongs=tray.tongs,
        name=tray.name,
        bath=tray.bath,
        strength=_strength(tray.mixed) if tray.mixed else "",
        dated=dated,
        signal=found[0].signal_word if found else "",
        life=_life(tray),
        cautions=tuple(line for one in found for line in _cautions(one)),
        is_water=not found,
    )


def _life(tray: model.Tray) -> str:
    if tray.life_sheets == 1:
        return "fresh for each sheet"
    return f"lasts {tray.life_sheets} sheets" if tray.life_sheets else ""


def _strength(formula: Formula) -> str:
    return ", ".join(amount_text(one, formula.makes_ml) for one in formula.ingredients)


def _cautions(one: Hazards) -> list[str]:
    """What it does to you, what to wear, how it is kept, what it must not meet."""
    classes = [f"{said.code} {said.text}." for said in one.statements]
    if not one.known:
        classes.append("Make-up not known here: read its label.")
    keep = [one.store[0]] if "oxidiser" in one.natures else []
    never = [f"Never {'; never '.join(one.never[:2])}."] if one.never else []
    return [*dict.fromkeys(classes), f"Wear {one.wear[0]}.", *keep, *never]
