"""What the printer's own prints say of a bath's limits.

A print that was judged good shows that every bath was still good at the use and age that it had then. A
print that was judged usable or lost, with mottle, veil or a stain, is held against one bath alone: the one
that was furthest through its usual range, by use or by age, and only where that lay beyond the point at which
use begins to tell. Below it other causes are likelier, and printers may always write figures of their own.

The limit is the cut that the fewest prints contradict: good ones at it or above, spoilt ones below. Of equal
cuts the lowest is taken, which is the safe side. The range is then from the highest that was still good to
just below the cut. It is narrowed and widened by such prints alone: without any the usual range stands.
"""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from footlight.chemistry.capacity import Limits
from footlight.notebook.sheets.verdicts import Verdict

# Defects that a tired bath may cause. Common practice, no source.
OF_BATHS = frozenset(("mottle", "veil", "stain"))

_JUST_BELOW = 0.999
Key = tuple[str, str]  # a bath's name and formula: baths that may be learned from together
Span = tuple[float, float]


@dataclass(frozen=True)
class Stood:
    """How far a bath was used when a sheet left it. per_l: sheets of 8x10 per litre. age_h [h]."""

    key: Key
    usual: Limits
    per_l: float
    age_h: float


@dataclass(frozen=True)
class Judged:
    """A print that says something of baths: it was good, or spoilt as a bath spoils."""

    sheet: int
    is_good: bool
    baths: tuple[Stood, ...]


@dataclass(frozen=True)
class Learned:
    """A range, and from how many prints: good ones, spoilt ones that were held against such baths, and how
    many of both contradict it."""

    span: Span
    good: int
    spoilt: int
    against: int

    @property
    def text(self) -> str:
        """`from 7 good prints and 1 spoilt`."""
        good = f"{self.good} good print{'' if self.good == 1 else 's'}" if self.good else ""
        spoilt = f"{self.spoilt} spoilt" + ("" if self.good else f" print{'' if self.spoilt == 1 else 's'}")
        against = f", {self.against} of them against it" if self.against else ""
        return (
            "from " + " and ".join(part for part in (good, spoilt if self.spoilt else "") if part) + against
        )


def says(verdict: Verdict) -> bool | None:
    """True: good. False: spoilt as a bath spoils. None: it says nothing of baths."""
    of_baths = verdict.defects & OF_BATHS
    if verdict.verdict == "good" and not of_baths:
        return True
    return False if verdict.verdict in ("usable", "lost") and of_baths else None


def by_use(prints: Iterable[Judged], key: Key, usual: Span) -> Learned | None:
    """Sheets of 8x10 per litre of such a bath; None where no print says anything."""
    return _learned(list(prints), key, usual, "use")


def by_age(prints: Iterable[Judged], key: Key, usual: Span) -> Learned | None:
    """Hours in the open tray of such a bath; None where no print says anything."""
    return _learned(list(prints), key, usual, "age")


def _learned(prints: list[Judged], key: Key, usual: Span, measure: str) -> Learned | None:
    good = [
        _value(bath, measure)
        for judged in prints
        if judged.is_good
        for bath in judged.baths
        if bath.key == key
    ]
    blamed = [cause for judged in prints if not judged.is_good and (cause := _cause(judged))]
    spoilt = [_value(bath, what) for bath, what in blamed if (bath.key, what) == (key, measure)]
    if not good and not spoilt:
        return None
    at = cut(good, spoilt)
    return Learned(narrowed(usual, good, at), len(good), len(spoilt), _against(at, good, spoilt))


def cut(good: Sequence[float], spoilt: Sequence[float]) -> float:
    """The value that parts good from spoilt with the fewest prints on the wrong side, the lowest of equals;
    infinite where nothing was spoilt, or so little that the good ones outweigh it."""
    return min([*sorted(set(spoilt)), math.inf], key=lambda at: _against(at, good, spoilt))


def _against(at: float, good: Sequence[float], spoilt: Sequence[float]) -> int:
    return sum(value >= at for value in good) + sum(value < at for value in spoilt)


def narrowed(usual: Span, good: Sequence[float], at: float) -> Span:
    """The usual range, moved by what was still good below the cut, and by the cut."""
    highest_good = max((value for value in good if value < at), default=0.0)
    # The sheet that would come to the cut again is one too many.
    to_cut = max(highest_good, at * _JUST_BELOW)
    most = to_cut if highest_good > usual[1] and at < math.inf else min(max(usual[1], highest_good), to_cut)
    if most > usual[0]:
        return max(usual[0], highest_good), most
    # Spoilt before use usually begins to tell: the range begins where it was still good, if that is known.
    return highest_good or most * usual[0] / usual[1], most


def _cause(judged: Judged) -> tuple[Stood, str] | None:
    """The bath that was furthest through its usual range and by which measure; None below its beginning."""
    shares = [
        (_value(bath, measure) / span[1], bath, measure, span)
        for bath in judged.baths
        for measure, span in (("use", bath.usual.sheets_per_l), ("age", bath.usual.tray_h))
    ]
    if not shares:
        return None
    _, bath, measure, span = max(shares, key=lambda share: share[0])
    return (bath, measure) if _value(bath, measure) >= span[0] else None


def _value(bath: Stood, measure: str) -> float:
    return bath.per_l if measure == "use" else bath.age_h
