"""Before a run, at the trays: baths mixed and fresh, water, and which tongs belong where."""

from typing import TYPE_CHECKING

from footlight.baths.check import Check
from footlight.baths.trays import counted, listed
from footlight.chemistry.hazards import clashes_between
from footlight.quantities.age import format_age_h
from footlight.sequence.hazards import hazards_of_tray
from footlight.sequence.model import Sequence, Tray

if TYPE_CHECKING:
    from footlight.baths.forecast import Forecast, Outlook


def in_use(sequence: Sequence) -> list[Tray]:
    """The trays that a step is in, in the order of the file."""
    used = {tray.name for step in sequence.steps if (tray := getattr(step, "tray", None))}
    return [tray for tray in sequence.trays if tray.name in used]


def baths(sequence: Sequence, forecast: "Forecast | None") -> list[Check]:
    """A line for each bath that can be used up."""
    known = {outlook.tray: outlook for outlook in forecast.outlooks} if forecast else {}
    return [_bath(tray, known.get(tray.name), sequence.sheets) for tray in counted(in_use(sequence))]


def _bath(tray: Tray, outlook: "Outlook | None", sheets: int) -> Check:
    name = f"{tray.name:<10} " + (f"in {tray.place}, " if tray.place else "")
    if outlook is None:
        return Check("bath", f"{name}mixed? The notebook has none in use", wrong=True)
    if outlook.fresh_before:
        when = "now" if outlook.fresh_before == 1 else f"before sheet {outlook.fresh_before} of {sheets}"
        return Check("bath", f"{name}MIX FRESH {when}: {_short(outlook.why)}", wrong=True)
    poured = ", in its bottle: pour it" if outlook.condition.bath.is_bottled else ""
    enough = f", enough for {outlook.good_for}" if outlook.good_for else ""
    state = f": {outlook.condition.state}" if outlook.condition.state == "watch" else ""
    return Check("bath", f"{name}{format_age_h(outlook.condition.age_h)} old{enough}{state}{poured}")


def _short(why: str) -> str:
    return why.split(" (")[0]


def water(sequence: Sequence) -> list[Check]:
    """Trays of water, and those that are filled anew for each sheet."""
    names = {tray.name for tray in counted(sequence.trays)}
    trays = [tray for tray in in_use(sequence) if tray.name not in names]
    if not trays:
        return []
    anew = [_called(tray) for tray in trays if tray.life_sheets == 1]
    rest = [_called(tray) for tray in trays if tray.life_sheets != 1]
    words = [f"filled in {listed(anew)}, anew for each sheet"] if anew else []
    return [Check("water", "; ".join([*words, *([f"water in {listed(rest)}"] if rest else [])]))]


def _called(tray: Tray) -> str:
    return tray.place or tray.name


def tongs(sequence: Sequence) -> list[Check]:
    """Which tongs belong to which trays, and which must never touch which."""
    owned: dict[str, list[Tray]] = {}
    for tray in in_use(sequence):
        if tray.tongs:
            owned.setdefault(tray.tongs, []).append(tray)
    if not owned:
        return []
    where = "; ".join(f"{name} in {' '.join(map(_called, trays))}" for name, trays in owned.items())
    checks = [Check("tongs", f"tongs {where}; rinsed")]
    never = [text for name, trays in owned.items() if (text := _never(name, trays, in_use(sequence)))]
    checks += [Check("tongs", f"never tongs {'; '.join(never)}")] if never else []
    return checks + [_mixed(name, trays) for name, trays in owned.items() if _clash(trays, trays)]


def _never(name: str, own: list[Tray], trays: list[Tray]) -> str:
    """`A in 3`: trays that these tongs must not touch after their own."""
    others = [tray for tray in trays if tray not in own and _clash(own, [tray])]
    return f"{name} in {' '.join(map(_called, others))}" if others else ""


def _mixed(name: str, trays: list[Tray]) -> Check:
    places = listed([_called(tray) for tray in trays])
    return Check(
        "tongs", f"tongs {name} carry what must not meet: {places} need tongs of their own", wrong=True
    )


def _clash(some: list[Tray], others: list[Tray]) -> bool:
    """May carrying over from some of these trays into others do harm?"""
    return any(
        clashes_between([one, other])
        for tray in some
        for one in hazards_of_tray(tray)
        for other_tray in others
        if other_tray is not tray
        for other in hazards_of_tray(other_tray)
    )
