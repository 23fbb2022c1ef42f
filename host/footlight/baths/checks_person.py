"""Before a run, for the person: what to wear, what to breathe, the way to light and water in the dark."""

from footlight.baths.check import Check
from footlight.baths.checks_trays import in_use
from footlight.baths.trays import listed
from footlight.chemistry.hazards import Hazards
from footlight.sequence.hazards import hazards_of_tray
from footlight.sequence.model import Sequence, Tray

# From what asks for most to what asks for least.
_RANKS = ("face shield over goggles", "face shield", "goggles AND gloves (nitrile)", "goggles AND", "")
_AIRS = ("oxidiser", "acid")


def person(sequence: Sequence) -> list[Check]:
    """What the baths ask for; nothing where no tray holds more than water."""
    hazards = [(tray, hazard) for tray in in_use(sequence) for hazard in hazards_of_tray(tray)]
    if not hazards:
        return []
    return [_wear(hazards), _air(hazards), _white_light(hazards)]


def _wear(hazards: list[tuple[Tray, Hazards]]) -> Check:
    wanted = [hazard.wear[0] for _, hazard in hazards]
    text = min(wanted, key=lambda words: next(rank for rank, part in enumerate(_RANKS) if part in words))
    asking = listed(list(dict.fromkeys(tray.name for tray, hazard in hazards if hazard.wear[0] == text)))
    return Check("wear", f"{text}: {asking}")


def _air(hazards: list[tuple[Tray, Hazards]]) -> Check:
    sharp = [tray for tray, hazard in hazards if hazard.natures & {*_AIRS} or "ammonia" in tray.bath.lower()]
    if not sharp:
        return Check("air", "air from you over the trays and out")
    names = listed(list(dict.fromkeys(tray.name for tray in sharp)))
    return Check("air", f"fan or window: air from you over the trays and out; {names} covered loosely")


def _white_light(hazards: list[tuple[Tray, Hazards]]) -> Check:
    bleach = any("oxidiser" in hazard.natures for _, hazard in hazards)
    why = "; in an eye: light, water 15 min, a doctor" if bleach else ""
    return Check("white light", f"wall switch and tap found blind{why}")
