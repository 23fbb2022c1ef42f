"""The hazards of every stock and mix, by concentration, and what to do about them.

    >>> from footlight.chemistry.hazards import hazards_for
    >>> [said.hazard for said in hazards_for("hydrogen peroxide", 30).statements]
    ['Acute Tox. 4, oral', 'Acute Tox. 4, inhalation', 'Eye Dam. 1']

`hazards_for` takes a substance with its strength, a `Formula`, or the name of a shipped formula; a bath
that it does not know comes back as such, with the advice to read its label: nothing is passed off as safe.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from footlight.chemistry import advice, shelf
from footlight.chemistry.clp import (
    DANGER,
    LICENCE_MOST_WW,
    PRECURSORS,
    PUBLIC_MOST_WW,
    REGULATION,
    SIGNAL_WORDS,
    STATEMENTS,
    SUBSTANCES,
    WARNING,
    Substance,
)
from footlight.chemistry.formula import PEROXIDE, Formula, Ingredient
from footlight.errors import InputError
from footlight.quantities import format_percent

_SENSITISER = "Contains a sensitiser"
_MAY = STATEMENTS[_SENSITISER][1]
# Room for the longest heading of `Hazards.sections` and a gap.
HEADING_WIDTH = 16
_REVISED = (
    f"{REGULATION}, Annex VI: hydrogen peroxide's entry is under revision; look up the version in force"
)


@dataclass(frozen=True)
class Statement:
    """One hazard class met: by `substance` at `percent_ww` [% w/w], where its band begins at `from_ww`."""

    hazard: str
    code: str
    text: str
    substance: str
    percent_ww: float
    from_ww: float

    def __str__(self) -> str:
        found = f"{self.substance} {format_percent(self.percent_ww)} w/w, from {self.from_ww:g} %"
        return f"{self.code} {self.text} ({self.hazard}: {found})"


@dataclass(frozen=True)
class Hazards:
    """What one stock or bath asks for. `known` is False where its make-up is not known here."""

    title: str
    known: bool
    statements: tuple[Statement, ...]
    wear: tuple[str, ...]
    air: tuple[str, ...]
    store: tuple[str, ...]
    never: tuple[str, ...]
    waste: tuple[str, ...]
    rules: tuple[str, ...]
    remarks: tuple[str, ...] = ()
    natures: frozenset[str] = frozenset()
    first_aid: tuple[str, ...] = ()

    @property
    def sections(self) -> list[tuple[str, tuple[str, ...]]]:
        """(heading, lines), those that have any, in the order in which they matter."""
        classes = tuple(str(statement) for statement in self.statements)
        none = "none by these limits, which is not the same as harmless" if self.known else "not known here"
        found = [
            ("Hazard", classes or (none,)),
            ("First aid", self.first_aid),
            ("Wear", self.wear),
            ("Air", self.air),
            ("Keep", self.store),
            ("Never together", self.never),
            ("Waste", self.waste),
            ("Know", self.remarks),
            ("Rules", self.rules),
        ]
        return [(heading, lines) for heading, lines in found if lines]

    @property
    def lines(self) -> list[str]:
        """For a card or a plan: a title, and a line for each thing to know, its heading on the first."""
        body = [
            f"  {heading if place == 0 else '':<{HEADING_WIDTH}}{line}"
            for heading, lines in self.sections
            for place, line in enumerate(lines)
        ]
        return [f"Safety: {self.title}", *body]

    @property
    def signal_word(self) -> str:
        """'Danger', 'Warning' or '', as Regulation (EC) No 1272/2008 has it for these classes."""
        words = {SIGNAL_WORDS[said.hazard] for said in self.statements}
        return DANGER if DANGER in words else WARNING if WARNING in words else ""

    @property
    def short(self) -> str:
        """One line for the plan of a sequence: what it does to you, and what to wear."""
        codes = ", ".join(dict.fromkeys(f"{said.code} {said.text.lower()}" for said in self.statements))
        told = codes or (
            "no class by its strength" if self.known else "make-up not known here: read its label"
        )
        return f"{self.title}: {told}; wear {self.wear[0]}"

    def as_dict(self) -> dict[str, object]:
        """For `--json`."""
        return {
            "title": self.title,
            "known": self.known,
            "statements": [vars(statement) for statement in self.statements],
            **{heading.lower().replace(" ", "_"): list(lines) for heading, lines in self.sections[1:]},
        }


def hazards_for(thing: str | Formula, percent_ww: float | None = None) -> Hazards:
    """Hazards of a substance at `percent_ww` [% w/w, None for the pure solid], a formula, or a bath's name.

    Salts of a formula are counted as g in 100 mL, which is never less than their % w/w. Classes of
    different substances are looked at one by one; Annex I would also add them up where they are alike.
    Raises `InputError` for a strength outside 0 to 100 %, and for peroxide without one.
    """
    if isinstance(thing, Formula):
        return _of(thing.name, tuple(_share(one, thing.makes_ml) for one in thing.ingredients))
    name = thing.strip()
    if substance := substance_named(name):
        return _of(_title(substance, percent_ww), ((substance.name, _strength(substance, percent_ww)),))
    formula = formula_named(name)
    if formula and percent_ww is not None:
        raise InputError(f"{name}: it is a formula, and its strengths are its own; leave the strength out")
    return _by_name(name, formula) if formula else _unknown(name)


def hazards_of_stocks(formula: Formula, stock_ww: float | None = None) -> list[Hazards]:
    """Hazards of what goes into a bath, as it stands on the shelf; stock_ww: the peroxide bottle's [% w/w].

    Raises `InputError` for a formula with peroxide where `stock_ww` is not given.
    """
    return [
        hazards_for(one.what, stock_ww if one.percent_ww is not None else None) for one in formula.ingredients
    ]


def hazards_for_baths(baths: Iterable[str]) -> list[Hazards]:
    """Hazards of the baths of a sequence, each once, water left out; what is not known says so."""
    names = dict.fromkeys(name.strip() for name in baths)
    return [hazards_for(name) for name in names if name and not is_water(name)]


def clashes_between(found: Sequence[Hazards]) -> tuple[str, ...]:
    """What happens if any two of these baths are poured together or carried over into each other."""
    told = [
        f"{one.title} and {other.title}: {text}"
        for place, one in enumerate(found)
        for other in found[place + 1 :]
        for text in sorted(set(advice.clashes(one.natures | other.natures)) - _own_clashes(one, other))
    ]
    strangers = [one.title for one in found if not one.known and not one.natures] if len(found) > 1 else []
    unknown = [f"{name} and all others: cannot tell: keep it apart" for name in strangers]
    return (*told, *unknown)


def formula_named(name: str) -> Formula | None:
    """The shipped formula that is called so, by its file or any of its names, or None."""
    wanted = " ".join(name.lower().replace("-", " ").split())
    for file_name in shelf.NAMES:
        formula = shelf.shipped(file_name)
        if wanted in (file_name.replace("-", " "), formula.name, *formula.also):
            return formula
    return None


def substance_named(name: str) -> Substance | None:
    """The substance that is called so, or None."""
    wanted = " ".join(name.lower().split())
    return next((one for one in SUBSTANCES if wanted in (one.name, *one.also)), None)


def _by_name(name: str, formula: Formula) -> Hazards:
    """Only the name is known: say what it was taken for, since a stronger bath is a worse one."""
    found = hazards_for(formula)
    taken = f"taken as the formula '{formula.name}' that comes with this tool; yours may be stronger"
    return replace(found, title=name, remarks=(taken, *found.remarks))


def _own_clashes(one: Hazards, other: Hazards) -> set[str]:
    """A bath that already holds two natures (a developer has sulfite and alkali) is no news."""
    return {*advice.clashes(one.natures), *advice.clashes(other.natures)}


def is_water(name: str) -> bool:
    """Is it water and nothing else, by its name?"""
    return "water" in name.lower().split(",")[0].split()


def _share(one: Ingredient, makes_ml: float) -> tuple[str, float | None]:
    """(name, % w/w); None where it is a concentrate, whose make-up only its label tells."""
    if one.percent_ww is not None:
        return one.what, one.percent_ww
    return one.what, 100 * one.mass_g / makes_ml if one.mass_g is not None else None


def _strength(substance: Substance, percent_ww: float | None) -> float:
    if percent_ww is None and substance.name == PEROXIDE:
        raise InputError(f"{PEROXIDE}: its hazards depend on its strength; give it, for example '35 % w/w'")
    strength = 100.0 if percent_ww is None else percent_ww
    if not 0 < strength <= 100:
        raise InputError(
            f"{substance.name}: {strength:g} % w/w is out of range; allowed is above 0 to 100 % w/w"
        )
    return strength


def _title(substance: Substance, percent_ww: float | None) -> str:
    return substance.name if percent_ww is None else f"{substance.name}, {format_percent(percent_ww)} w/w"


def _of(title: str, parts: tuple[tuple[str, float | None], ...]) -> Hazards:
    """Hazards of a mixture of (name, % w/w or None)."""
    statements, natures, remarks, known = [], set(), [], True
    for name, percent_ww in parts:
        substance = substance_named(name)
        known = known and substance is not None and percent_ww is not None and not substance.is_blend
        if substance is None:
            remarks.append(f"{name}: not known here; read its label and safety data sheet")
            continue
        natures |= substance.nature
        if substance.remark:
            remarks.append(f"{substance.name}: {substance.remark}")
        if percent_ww is not None:
            statements += _statements(substance, percent_ww)
    return _advised(
        title, known, tuple(_strongest(statements)), frozenset(natures), tuple(remarks), dict(parts)
    )


def _statements(substance: Substance, percent_ww: float) -> list[Statement]:
    return [
        Statement(band.hazard, *STATEMENTS[band.hazard], substance.name, percent_ww, band.least)
        for band in substance.bands()
        if band.least <= percent_ww < band.below
    ]


def _strongest(statements: list[Statement]) -> list[Statement]:
    """One a class, in the order of `STATEMENTS`; what a worse class includes is left out."""
    by_class = {statement.hazard: statement for statement in statements}
    if sensitisers := [said for said in statements if said.hazard == _SENSITISER]:
        # Every one of them is named (CLP, Annex II, 2.8), not the last alone.
        names = " and ".join(dict.fromkeys(said.substance for said in sensitisers))
        by_class[_SENSITISER] = replace(sensitisers[0], substance=names, text=f"Contains {names}. {_MAY}")
    worse = {"Eye Irrit. 2": ("Eye Dam. 1",), "Contains a sensitiser": ("Skin Sens. 1",)}
    kept = [name for name in STATEMENTS if name in by_class]
    return [by_class[name] for name in kept if not set(worse.get(name, ())) & set(kept)]


def _advised(
    title: str,
    known: bool,
    statements: tuple[Statement, ...],
    natures: frozenset[str],
    remarks: tuple[str, ...],
    parts: dict[str, float | None],
) -> Hazards:
    classes = frozenset(statement.hazard for statement in statements)
    return Hazards(
        title=title,
        known=known,
        statements=statements,
        wear=advice.wear(classes, natures, known),
        air=advice.air(classes, natures),
        store=advice.store(natures),
        never=advice.never_with(natures),
        waste=advice.waste(natures),
        rules=_rules(parts.get(PEROXIDE)),
        remarks=remarks,
        natures=natures,
        first_aid=advice.first_aid(classes, natures),
    )


def _rules(peroxide_ww: float | None) -> tuple[str, ...]:
    if peroxide_ww is None:
        return (f"classes by {REGULATION}.", advice.DEFER)
    public = (
        f"EU: above {PUBLIC_MOST_WW:g} % w/w no member of the public may buy, bring in, hold or use it, but"
        f" by a licence up to {LICENCE_MOST_WW:g} % w/w where a country grants one ({PRECURSORS})"
    )
    reached = "this is above it" if peroxide_ww > PUBLIC_MOST_WW else "this is not above it, its stock may be"
    return (f"{_REVISED}.", f"{public}; {reached}. Elsewhere: look up your own.", advice.DEFER)


def _unknown(name: str) -> Hazards:
    return _advised(
        name, False, (), frozenset(), (f"{name}: not known here; read its label and safety data sheet",), {}
    )
