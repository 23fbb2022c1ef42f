"""Labels for the trays of a sequence, with the dates of the baths that stand in them."""

from dataclasses import dataclass
from pathlib import Path

from footlight import sequence
from footlight.notebook.book import notebook
from footlight.notebook.dates import date_text
from footlight.notebook.stock import baths, since
from footlight.report.pages import labels, labels_of
from footlight.sequence import Sequence


@dataclass(frozen=True)
class PrintedLabels:
    """A page [HTML text] of so many labels; dated: how many have the date of their bath."""

    html: str
    labels: int
    dated: int


def print_labels(file: Path, book: Path | None, paper: str, now_s: int) -> PrintedLabels:
    """The labels of the sequence in `file`. book: the notebook that knows the baths at `now_s` [s since
    1970]; None leaves every date to the pen. Raises InputError for a file that is none."""
    loaded = sequence.load(file)
    made = labels_of.labels_of(loaded, _dates(loaded, book, now_s) if book and book.exists() else {})
    dated = sum(bool(label.dated) for label in made)
    return PrintedLabels(labels.printed(made, loaded.name, paper), len(made), dated)


def _dates(loaded: Sequence, book: Path, now_s: int) -> dict[str, str]:
    """Tray -> when the bath that stands in it was mixed."""
    with notebook(book, writing=False) as connection:
        known = baths.every(connection)
    standing = {tray.name: since.bath_at(known, tray.name, now_s) for tray in loaded.trays}
    return {tray: date_text(bath.mixed_unix_s) for tray, bath in standing.items() if bath is not None}
