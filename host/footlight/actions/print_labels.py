"""Labels for the trays of a sequence, with the dates of the baths that stand in them."""

from dataclasses import dataclass
from pathlib import Path

from footlight import sequence
from footlight.actions.look_at_trays import look_at_trays
from footlight.errors import InputError
from footlight.notebook.dates import date_text
from footlight.report.pages import labels, labels_of


@dataclass(frozen=True)
class PrintedLabels:
    """A page [HTML text] of so many labels; dated: how many have the date of their bath. mismatches: trays
    whose bath is another than the sequence's; their labels tell of what stands there."""

    html: str
    labels: int
    dated: int
    mismatches: tuple[str, ...] = ()


def print_labels(
    file: Path, book: Path | None, paper: str, now_s: int, *, undated: bool = False
) -> PrintedLabels:
    """The labels of the sequence in `file`. book: the notebook that knows the baths at `now_s` [s since
    1970], whose make-up and dates the labels carry, None for those of the file; undated: dates are left to
    the pen. Raises InputError for a file that is none, and for a notebook that cannot be read."""
    trays = look_at_trays(sequence.load(file), book, now_s)
    if trays.trouble:
        raise InputError(f"{file}: no labels, for {trays.trouble}")
    dates = {name: date_text(stand.mixed_unix_s) for name, stand in trays.stands.items() if not undated}
    made = labels_of.labels_of(trays.sequence, dates)
    dated = sum(bool(label.dated) for label in made)
    html = labels.printed(made, trays.sequence.name, paper)
    return PrintedLabels(html, len(made), dated, tuple(trays.mismatches.values()))
