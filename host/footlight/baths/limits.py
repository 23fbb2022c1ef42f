"""How long a bath lasts: the printer's own figure, else what prints taught, else where the trade begins."""

from collections.abc import Sequence
from dataclasses import dataclass

from footlight.baths import learning
from footlight.baths.learning import Judged, Key, Learned, Span
from footlight.chemistry.capacity import TRADE, Limits
from footlight.notebook.stock.baths import Bath

# Of an own figure: from this part of it on the bath is watched.
_WATCH_FROM = 0.75


@dataclass(frozen=True)
class Known:
    """Limits, and where each comes from, in words."""

    limits: Limits
    use_from: str
    age_from: str


def key_of(bath: Bath) -> Key:
    """What a bath shares with those that it may be learned from."""
    return bath.name.casefold(), bath.formula.casefold()


def usual(bath: Bath) -> Limits | None:
    """Where the trade begins, None for a bath of another kind."""
    return next((limits for kind, limits in TRADE.items() if kind == bath.kind), None)


def known(bath: Bath, alike: Sequence[Bath], prints: Sequence[Judged]) -> Known | None:
    """The limits of a bath. alike: all baths of its name and formula, the oldest first.

    None for a bath of another kind without figures of the printer's own for both area and age.
    """
    trade = usual(bath)
    use, use_from = _own(alike, "sheets") or _taught(trade, "use", bath, prints)
    age, age_from = _own(alike, "hours") or _taught(trade, "age", bath, prints)
    if use is None or age is None:
        return None
    return Known(Limits(use, age), use_from, age_from)


def _own(alike: Sequence[Bath], kind: str) -> tuple[Span, str] | None:
    """The last figure that was written for any of them, carried over by volume."""
    for bath in reversed(alike):
        finding = bath.last(kind)
        if finding and finding.value:
            most = finding.value / (bath.working_ml / 1000) if kind == "sheets" else finding.value
            return (most * _WATCH_FROM, most), "your own figure"
    return None


def _taught(
    trade: Limits | None, measure: str, bath: Bath, prints: Sequence[Judged]
) -> tuple[Span | None, str]:
    if trade is None:
        return None, ""
    span = trade.sheets_per_l if measure == "use" else trade.tray_h
    teach = learning.by_use if measure == "use" else learning.by_age
    learned: Learned | None = teach(prints, key_of(bath), span)
    if learned is None or learned.span == span:
        return span, "the trade's range"
    return learned.span, learned.text
