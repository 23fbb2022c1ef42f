"""What the European regulation on classification and labelling says, as data.

Regulation (EC) No 1272/2008 (CLP). `GENERIC` are the concentration limits of its Annex I for mixtures,
`STATEMENTS` the wording of its Annex III, `SUBSTANCES` the harmonised entries of its Annex VI, table 3,
with their own limits where they have them. Annex VI is amended about once a year and the entry of
hydrogen peroxide is under revision: the bottle's own safety data sheet comes first.

Sources: hydrogen peroxide's limits seen in part, the rest of this file from memory, to be confirmed in
the consolidated regulation. Classes are those that a darkroom's amounts can meet, not all of them.
"""

from dataclasses import dataclass, field
from typing import NamedTuple

REGULATION = "Regulation (EC) No 1272/2008 (CLP)"
PRECURSORS = "Regulation (EU) 2019/1148, Art. 5 and Annex I"
# Above the first [% w/w] no member of the public in the EU may be sold hydrogen peroxide, bring it in, hold
# or use it; up to the second where a country grants licences. From memory, to be confirmed in the text.
PUBLIC_MOST_WW, LICENCE_MOST_WW = 12.0, 35.0


class Band(NamedTuple):
    """A hazard class that holds from `least` up to, not including, `below` [% w/w]."""

    hazard: str
    least: float
    below: float = float("inf")


# hazard class -> (code, wording)
STATEMENTS: dict[str, tuple[str, str]] = {
    "Ox. Liq. 1": ("H271", "May cause fire or explosion; strong oxidiser"),
    "Ox. Liq. 2": ("H272", "May intensify fire; oxidiser"),
    "Acute Tox. 4, oral": ("H302", "Harmful if swallowed"),
    "Acute Tox. 4, inhalation": ("H332", "Harmful if inhaled"),
    "Skin Corr. 1A": ("H314", "Causes severe skin burns and eye damage"),
    "Skin Corr. 1B": ("H314", "Causes severe skin burns and eye damage"),
    "Skin Irrit. 2": ("H315", "Causes skin irritation"),
    "Skin Sens. 1": ("H317", "May cause an allergic skin reaction"),
    "Contains a sensitiser": ("EUH208", "May produce an allergic reaction"),
    "Eye Dam. 1": ("H318", "Causes serious eye damage"),
    "Eye Irrit. 2": ("H319", "Causes serious eye irritation"),
    "STOT SE 3": ("H335", "May cause respiratory irritation"),
    "Muta. 2": ("H341", "Suspected of causing genetic defects"),
    "Carc. 2": ("H351", "Suspected of causing cancer"),
    "STOT RE 2": ("H373", "May cause damage to organs through prolonged or repeated exposure"),
    "Aquatic Acute 1": ("H400", "Very toxic to aquatic life"),
    "Aquatic Chronic 1": ("H410", "Very toxic to aquatic life with long lasting effects"),
    "Acids free gas": ("EUH031", "Contact with acids liberates toxic gas"),
}

# Hazard class -> its signal word by Annex I, from memory; supplemental statements (EUH) have none. By Article
# 20(3) 'Warning' is left out where 'Danger' applies.
DANGER, WARNING = "Danger", "Warning"
SIGNAL_WORDS: dict[str, str] = {
    "Ox. Liq. 1": DANGER,
    "Ox. Liq. 2": DANGER,
    "Acute Tox. 4, oral": WARNING,
    "Acute Tox. 4, inhalation": WARNING,
    "Skin Corr. 1A": DANGER,
    "Skin Corr. 1B": DANGER,
    "Skin Irrit. 2": WARNING,
    "Skin Sens. 1": WARNING,
    "Contains a sensitiser": "",
    "Eye Dam. 1": DANGER,
    "Eye Irrit. 2": WARNING,
    "STOT SE 3": WARNING,
    "Muta. 2": WARNING,
    "Carc. 2": WARNING,
    "STOT RE 2": WARNING,
    "Aquatic Acute 1": WARNING,
    "Aquatic Chronic 1": WARNING,
    "Acids free gas": "",
}

# Substance class -> what a mixture with that much of it is: Annex I, tables 3.3.3, 3.2.3, 3.4.5, 3.5.2,
# 3.6.2, 3.9.4, section 3.8.3.4.5; acute toxicity by 3.1.3.6 with the converted estimate 500 mg/kg, 2000/500.
GENERIC: dict[str, tuple[Band, ...]] = {
    "Acute Tox. 4, oral": (Band("Acute Tox. 4, oral", 25),),
    # As dust or mist, which is stricter than as vapour: converted estimate 1.5 mg/L, limit 5 mg/L.
    "Acute Tox. 4, inhalation": (Band("Acute Tox. 4, inhalation", 30),),
    "Skin Irrit. 2": (Band("Skin Irrit. 2", 10),),
    "Skin Sens. 1": (Band("Skin Sens. 1", 1), Band("Contains a sensitiser", 0.1, 1)),
    "Eye Dam. 1": (Band("Eye Dam. 1", 3), Band("Eye Irrit. 2", 1, 3)),
    "Eye Irrit. 2": (Band("Eye Irrit. 2", 10),),
    "STOT SE 3": (Band("STOT SE 3", 20),),
    "STOT RE 2": (Band("STOT RE 2", 10),),
    "Muta. 2": (Band("Muta. 2", 1),),
    "Carc. 2": (Band("Carc. 2", 1),),
    "Aquatic Acute 1": (Band("Aquatic Acute 1", 25),),
    "Aquatic Chronic 1": (Band("Aquatic Chronic 1", 25),),
    "Acids free gas": (Band("Acids free gas", 1),),
}


@dataclass(frozen=True)
class Substance:
    """A thing on the shelf.

    classes: its harmonised classes, which `GENERIC` turns into limits. own: limits of its own, which come
    first. nature: what it must be kept from (see `advice`). entry: its index number in Annex VI, '' where
    it has none. also: other names. m_factor: multiplies its share for the aquatic classes. is_blend: only its
    maker knows what is in it.
    """

    name: str
    classes: tuple[str, ...] = ()
    own: tuple[Band, ...] = ()
    nature: frozenset[str] = field(default_factory=frozenset)
    entry: str = ""
    also: tuple[str, ...] = ()
    m_factor: float = 1.0
    remark: str = ""
    is_blend: bool = False

    def bands(self) -> tuple[Band, ...]:
        """Its own limits, and the generic ones of its classes (aquatic ones divided by the M-factor)."""
        generic = [band for name in self.classes for band in GENERIC[name]]
        return self.own + tuple(
            band._replace(least=band.least / self.m_factor) if band.hazard.startswith("Aquatic") else band
            for band in generic
        )


def _nature(*names: str) -> frozenset[str]:
    return frozenset(names)


SUBSTANCES: tuple[Substance, ...] = (
    Substance(
        "hydrogen peroxide",
        classes=("Acute Tox. 4, oral", "Acute Tox. 4, inhalation"),
        own=(
            Band("Ox. Liq. 1", 70),
            Band("Ox. Liq. 2", 50, 70),
            Band("Skin Corr. 1A", 70),
            Band("Skin Corr. 1B", 50, 70),
            Band("Skin Irrit. 2", 35, 50),
            Band("Eye Dam. 1", 8, 50),
            Band("Eye Irrit. 2", 5, 8),
            Band("STOT SE 3", 35),
        ),
        nature=_nature("oxidiser"),
        entry="008-003-00-9",
        also=("peroxide", "h2o2"),
    ),
    Substance("citric acid", ("Eye Irrit. 2", "STOT SE 3"), nature=_nature("acid"), entry="607-750-00-3"),
    Substance(
        "acetic acid",
        own=(Band("Skin Corr. 1A", 90), Band("Skin Corr. 1B", 25, 90), Band("Skin Irrit. 2", 10, 25),
             Band("Eye Irrit. 2", 10, 25)),
        nature=_nature("acid", "peracid former"),
        entry="607-002-00-6",
        also=("stop bath acid", "acetic", "glacial acetic acid", "vinegar essence"),
    ),
    Substance(
        "stop bath",
        nature=_nature("acid", "peracid former"),
        also=("stop", "acid stop bath", "vinegar", "white vinegar", "indicator stop bath"),
        remark="taken as dilute acetic acid, which most are; citric ones are milder: its label tells",
        is_blend=True,
    ),
    Substance(
        "formic acid",
        own=(Band("Skin Corr. 1A", 90), Band("Skin Corr. 1B", 10, 90), Band("Skin Irrit. 2", 2, 10),
             Band("Eye Irrit. 2", 2, 10)),
        nature=_nature("acid", "peracid former"),
        entry="607-001-00-0",
    ),
    Substance(
        "sulfuric acid",
        own=(Band("Skin Corr. 1A", 15), Band("Skin Irrit. 2", 5, 15), Band("Eye Irrit. 2", 5, 15)),
        nature=_nature("acid", "peracid former"),
        entry="016-020-00-8",
        also=("battery acid", "sulphuric acid"),
    ),
    Substance(
        "hydrochloric acid",
        own=(Band("Skin Corr. 1B", 25), Band("Skin Irrit. 2", 10, 25), Band("Eye Irrit. 2", 10, 25),
             Band("STOT SE 3", 10)),
        nature=_nature("acid", "peracid former"),
        entry="017-002-01-X",
        also=("muriatic acid",),
    ),
    Substance(
        "nitric acid",
        own=(Band("Skin Corr. 1A", 20), Band("Skin Corr. 1B", 5, 20)),
        nature=_nature("acid", "peracid former", "oxidiser"),
        entry="007-004-00-1",
    ),
    Substance(
        "sodium hypochlorite",
        classes=("Acids free gas",),
        own=(Band("Skin Corr. 1B", 5), Band("Eye Irrit. 2", 1, 3)),
        nature=_nature("hypochlorite", "alkali"),
        entry="017-011-00-1",
        also=("chlorine bleach", "household bleach", "laundry bleach", "hypochlorite"),
        remark="the bleach of kitchens and pools is no photographic bleach",
    ),
    Substance("acetone", ("Eye Irrit. 2",), nature=_nature("solvent"), entry="606-001-00-8",
              also=("nail varnish remover",)),
    Substance("ethanol", nature=_nature("solvent"), entry="603-002-00-5",
              also=("alcohol", "methylated spirit", "denatured alcohol", "isopropanol", "isopropyl alcohol")),
    Substance(
        "ammonia",
        own=(Band("Skin Corr. 1B", 5), Band("STOT SE 3", 5)),
        nature=_nature("alkali", "ammonia"),
        entry="007-001-01-2",
        also=("ammonia solution", "ammonium hydroxide"),
    ),
    Substance("sodium hydroxide", own=(Band("Skin Corr. 1A", 5), Band("Skin Corr. 1B", 2, 5),
              Band("Skin Irrit. 2", 0.5, 2), Band("Eye Irrit. 2", 0.5, 2)),
              nature=_nature("alkali"), entry="011-002-00-6", also=("caustic soda", "lye", "drain cleaner")),
    Substance("potassium permanganate", ("Acute Tox. 4, oral", "Aquatic Acute 1", "Aquatic Chronic 1"),
              nature=_nature("permanganate"), entry="025-002-00-9", also=("permanganate",)),
    Substance(
        "metol",
        ("Acute Tox. 4, oral", "Skin Sens. 1", "STOT RE 2", "Aquatic Acute 1", "Aquatic Chronic 1"),
        nature=_nature("reducer"),
        entry="650-031-00-4",
        also=("4-methylaminophenol sulfate",),
    ),
    Substance(
        "hydroquinone",
        ("Acute Tox. 4, oral", "Skin Sens. 1", "Eye Dam. 1", "Muta. 2", "Carc. 2", "Aquatic Acute 1"),
        nature=_nature("reducer"),
        entry="604-005-00-4",
        m_factor=10.0,
    ),
    Substance(
        "sodium carbonate",
        ("Eye Irrit. 2",),
        nature=_nature("alkali"),
        entry="011-005-00-2",
        also=("sodium carbonate, anhydrous", "washing soda"),
    ),
    Substance(
        "sodium sulfite",
        nature=_nature("sulfite", "reducer"),
        also=("sodium sulfite, anhydrous", "sulfite"),
        remark="no harmonised entry; acids set sulphur dioxide free",
    ),
    Substance(
        "sodium metabisulfite",
        ("Acute Tox. 4, oral", "Eye Dam. 1", "Acids free gas"),
        nature=_nature("sulfite", "reducer"),
        entry="016-063-00-2",
        also=("metabisulfite",),
    ),
    Substance("potassium bromide", remark="no harmonised entry; makers label it as an eye irritant"),
    Substance(
        "sodium thiosulfate",
        nature=_nature("thiosulfate", "reducer"),
        also=("sodium thiosulfate, crystals", "hypo"),
        remark="no harmonised entry",
    ),
    Substance(
        "ammonium thiosulfate",
        nature=_nature("thiosulfate", "reducer", "ammonia"),
        also=("rapid fixer concentrate", "rapid fixer", "rapid fix", "ammonium fixer", "fixer concentrate"),
        remark="no harmonised entry; concentrates often hold sulfite and a weak acid",
    ),
    Substance(
        "paper developer concentrate",
        nature=_nature("reducer", "alkali", "sulfite"),
        also=("developer concentrate",),
        remark="its make-up is its maker's: most hold hydroquinone and are alkaline; its label tells",
        is_blend=True,
    ),
    Substance("water", remark="nothing to say"),
)  # fmt: skip
