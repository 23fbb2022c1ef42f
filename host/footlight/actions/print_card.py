"""The wall card of a sequence."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from footlight import sequence
from footlight.actions.look_at_trays import look_at_trays
from footlight.report.pages import card, card_of


@dataclass(frozen=True)
class PrintedCard:
    """A page [HTML text]. digits_mm: height of its times; read_from_m: the distance at which they are read,
    where that is nearer than it should be, else None. cut_notes: steps whose note had no room."""

    html: str
    steps: int
    digits_mm: float
    read_from_m: float | None
    cut_notes: tuple[str, ...]


def print_card(
    file: Path, setups: Path | None, finish: Sequence[str], paper: str, book: Path | None, now_s: int
) -> PrintedCard:
    """The card of the sequence in `file`. setups: another light-setups file than it names; finish: what is
    done last by no clock, instead of the usual; book: the notebook that knows what stands in the trays at
    `now_s` [s since 1970]. Raises InputError for a file that is none."""
    compiled = sequence.compile(sequence.load(file, setups))
    trays = look_at_trays(compiled.sequence, book, now_s)
    compiled = replace(compiled, sequence=trays.sequence)
    page = card.printed(card_of.card_of(compiled, tuple(finish) or None), paper)
    is_small = page.digits_mm < card.DIGITS_MM
    return PrintedCard(
        page.html,
        len(compiled.sequence.steps),
        page.digits_mm,
        2 * page.digits_mm / card.DIGITS_MM if is_small else None,
        tuple(card_of.cut_notes(compiled)),
    )
