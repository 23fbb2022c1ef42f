"""Look at the trays: what really stands in those of a sequence, as the notebook knows it."""

from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING

from footlight.errors import FootlightError
from footlight.sequence.model import Sequence

if TYPE_CHECKING:
    from footlight.baths.standing import Standing


@dataclass(frozen=True)
class Trays:
    """sequence: with the baths that stand in its trays. stands, mismatches: by tray; the latter sentences.
    trouble: why the notebook could not be read, '' otherwise."""

    sequence: Sequence
    stands: "dict[str, Standing]" = field(default_factory=dict)
    mismatches: dict[str, str] = field(default_factory=dict)
    trouble: str = ""


def look_at_trays(sequence: Sequence, book: Path | None, now_s: int) -> Trays:
    """What stands in the trays at `now_s` [s since 1970]; the sequence as it is without a notebook."""
    if book is None or not book.is_file() or not sequence.trays:
        return Trays(sequence)
    from footlight.baths import standing
    from footlight.notebook.book import notebook

    try:
        with notebook(book, writing=False) as connection:
            stands = standing.standing(connection, sequence, now_s)
    except FootlightError as error:
        return Trays(sequence, trouble=f"the baths are not known: {error}")
    return Trays(standing.as_it_stands(sequence, stands), stands, standing.mismatches(sequence, stands))
