"""What to wear, what never to bring together, where it goes: usual cautions of the trade.

Common practice, no source, except where one is named. Local rules, the safety data sheet of the bottle
and the people who are licensed to take waste come first.
"""

from collections.abc import Collection

DEFER = "Local rules and the bottle's own label and safety data sheet come before anything written here."
EYE_FIRST = (
    "In an eye: white light on, tap at once, lids held open, 15 minutes, then a doctor; practise the way in"
    " the dark."
)

# Two natures that must not meet -> what happens.
NEVER: dict[tuple[str, str], str] = {
    ("oxidiser", "reducer"): "peroxide with developer, sulfite or fixer: it heats, foams and spits",
    (
        "oxidiser",
        "alkali",
    ): "peroxide with alkali (developer, washing soda): it falls apart, hot, with gas",
    ("acid", "sulfite"): "acid with sulfite or metabisulfite: choking sulphur dioxide",
    ("acid", "thiosulfate"): "acid with fixer: sulphur falls out and sulphur dioxide comes off",
    ("acid", "alkali"): "acid with carbonate or developer: it foams over",
}
# What nothing on this shelf may meet, by nature.
_ALONE: dict[str, tuple[str, ...]] = {
    "oxidiser": (
        "peroxide with acetone or other solvents: explosive solids can form, most of all with acid",
        "peroxide with metal trays, rust, copper, silver sludge, permanganate or dust: it runs away",
        "peroxide with chlorine bleach: fast gas",
    ),
    "acid": ("acid with chlorine bleach: chlorine gas",),
}


def never_with(natures: Collection[str]) -> tuple[str, ...]:
    """What things of these natures must not be brought together with."""
    pairs = [text for (first, second), text in NEVER.items() if first in natures or second in natures]
    return (*pairs, *(text for nature in sorted(natures) for text in _ALONE.get(nature, ())))


def clashes(natures: Collection[str]) -> tuple[str, ...]:
    """What happens if things of all these natures are poured together; nothing where they may be."""
    return tuple(text for (first, second), text in NEVER.items() if first in natures and second in natures)


def wear(hazards: frozenset[str], natures: frozenset[str], known: bool = True) -> tuple[str, ...]:
    """What to put on: eyes and hands always both."""
    burns = hazards & {"Skin Corr. 1A", "Skin Corr. 1B"}
    if burns or "oxidiser" in natures or "Eye Dam. 1" in hazards:
        eyes = "face shield over goggles" if burns else "face shield or goggles"
        apron = ", and an apron that sheds water" if burns or "Eye Dam. 1" in hazards else ""
        return (f"{eyes} AND gloves (nitrile, long cuffs){apron}", "spectacles are no goggles")
    if not known:
        return ("goggles AND gloves (nitrile), until its label says otherwise",)
    if hazards or natures & {"acid", "alkali"}:
        return ("goggles AND gloves (nitrile)",)
    return ("gloves or tongs; goggles while powders or concentrates are poured",)


def air(hazards: frozenset[str], natures: frozenset[str]) -> tuple[str, ...]:
    """What to breathe, or rather not."""
    lines = [
        "air moving from you over the trays and out; no fine spray, no dust: powders go into water slowly"
    ]
    if "STOT SE 3" in hazards:
        lines.append("irritates the airways: open windows while it is poured")
    if "acid" in natures and "oxidiser" in natures:
        lines.append("warm acid peroxide gives off a sharp mist: cover the tray between sheets, loosely")
    return tuple(lines)


def store(natures: Collection[str]) -> tuple[str, ...]:
    """How to keep it."""
    if "oxidiser" not in natures:
        return ("closed, labelled with name, strength and date, away from food and children",)
    return (
        "NEVER in a sealed bottle: gas builds up until it bursts; a vented cap or a loose one, upright",
        "used bleach never goes back into the stock bottle: a trace of silver sets it all off",
        "cool, dark, plastic or its own bottle, away from anything that burns, food and children; labelled"
        " and dated",
    )


def waste(natures: Collection[str]) -> tuple[str, ...]:
    """Where it goes when it is done."""
    if "oxidiser" in natures:
        return (
            "used bleach carries silver: leave it open until it has stopped fizzing (a day or more), then to"
            " the silver waste of your community; into no drain where that is forbidden",
            "keep it apart from used developer and fixer: one vessel each",
        )
    if "thiosulfate" in natures:
        return ("used fixer carries silver: to a collection or a silver recoverer, not into the drain",)
    return (
        "to the collection for photographic chemicals, one vessel a bath, unless local rules allow the drain",
    )
