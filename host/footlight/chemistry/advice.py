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

_SKIN_FIRST = "On skin: wet clothes off, tap at once for a long time; a burn to a doctor."
_INSIDE_FIRST = (
    "Swallowed: rinse the mouth, make nobody vomit, ring the poison centre; breathed in: fresh air, rest."
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
    (
        "oxidiser",
        "peracid former",
    ): "peroxide with acetic, formic or a mineral acid: peracids form, which burn and"
    " burst; citric acid alone belongs in this bleach",
    (
        "oxidiser",
        "solvent",
    ): "peroxide with acetone or other solvents: explosive solids can form, most of all with acid",
    ("oxidiser", "permanganate"): "peroxide with permanganate: it runs away",
    ("hypochlorite", "oxidiser"): "chlorine bleach with peroxide: fast gas",
    ("hypochlorite", "acid"): "chlorine bleach with acid: chlorine gas",
    ("hypochlorite", "ammonia"): "chlorine bleach with ammonia or ammonium fixer: chloramine gas",
    ("hypochlorite", "solvent"): "chlorine bleach with acetone or alcohol: poisonous vapours",
    ("hypochlorite", "reducer"): "chlorine bleach with developer, sulfite or fixer: heat and gas",
    ("permanganate", "reducer"): "permanganate with developer, sulfite or fixer: it heats",
    ("permanganate", "solvent"): "permanganate with solvents: fire",
    ("permanganate", "peracid former"): "permanganate with strong acid: explosive",
}
# What nothing on this shelf may meet, by nature.
_ALONE: dict[str, tuple[str, ...]] = {
    "oxidiser": ("peroxide with metal trays, rust, copper, silver sludge or dust: it runs away",),
}


def never_with(natures: Collection[str]) -> tuple[str, ...]:
    """What things of these natures must not be brought together with."""
    pairs = [text for (first, second), text in NEVER.items() if first in natures or second in natures]
    return (*pairs, *(text for nature in sorted(natures) for text in _ALONE.get(nature, ())))


def clashes(natures: Collection[str]) -> tuple[str, ...]:
    """What happens if things of all these natures are poured together; nothing where they may be."""
    return tuple(text for (first, second), text in NEVER.items() if first in natures and second in natures)


def first_aid(hazards: frozenset[str], natures: Collection[str]) -> tuple[str, ...]:
    """What to do when it has happened, the worst first.

    After the precautionary statements of CLP, Annex IV: P305 + P351 + P338, P303 + P361 + P353, P301 + P330 +
    P331, P304 + P340 (from memory); the quarter of an hour is common practice, no source.
    """
    eye = (EYE_FIRST,) if "oxidiser" in natures or hazards & _EYE else ()
    skin = (_SKIN_FIRST,) if hazards & _SKIN else ()
    inside = (_INSIDE_FIRST,) if hazards or natures else ()
    return (*eye, *skin, *inside)


_EYE = frozenset({"Eye Dam. 1", "Eye Irrit. 2", "Skin Corr. 1A", "Skin Corr. 1B"})
_SKIN = frozenset({"Skin Corr. 1A", "Skin Corr. 1B", "Skin Irrit. 2", "Skin Sens. 1"})


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
