"""Count the paper for a batch: has the box in use as many sheets as it takes?"""

from pathlib import Path

from footlight.errors import FootlightError
from footlight.sequence.model import Sequence


def count_paper(sequence: Sequence, book: Path) -> str:
    """A sentence where the batch takes more sheets than are left of the paper in use; '' where it does not,
    or where nobody counts."""
    if sequence.sheets < 2 or not book.is_file():
        return ""
    from footlight.notebook.book import notebook
    from footlight.notebook.stock import papers

    try:
        sides = papers.sides_of(sequence.sheet.name) if sequence.sheet else None
        with notebook(book, writing=False) as connection:
            batch = papers.in_use(connection, sides)
    except FootlightError:
        return ""  # what is wrong with the notebook is said of its baths
    if batch is None or batch.left >= sequence.sheets:
        return ""
    left = max(0, batch.left)
    return (
        f"The batch is of {sequence.sheets} sheets, and of paper {batch.name} {left} are left by the count:"
        " open another box and write it down, or make the batch smaller."
    )
