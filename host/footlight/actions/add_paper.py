"""A batch of paper is written down."""

from dataclasses import dataclass
from pathlib import Path

from footlight.notebook.book import notebook
from footlight.notebook.stock import papers
from footlight.notebook.stock.papers import Batch


@dataclass(frozen=True)
class AddedPaper:
    """The batch. in_use: the one that sheets of its size are taken to be of, None where there is none."""

    batch: Batch
    in_use: Batch | None


def add_paper(
    book: Path, name: str, paper: str, size: str, sheets: int, index: float | None, now_s: int
) -> AddedPaper:
    """Write down a batch. size: of a sheet, as written; sheets: so many were bought; index: exposure index.

    Raises InputError for a name that is taken, and for a size that is none.
    """
    with notebook(book, writing=True) as connection:
        batch = papers.add(connection, name, paper, size, sheets, index, now_s)
        return AddedPaper(batch, papers.in_use(connection, papers.sides_of(size)))
