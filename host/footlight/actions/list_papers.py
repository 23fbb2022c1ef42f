"""The batches of paper: all of them, or one with everything about it."""

from dataclasses import dataclass
from pathlib import Path

from footlight.notebook.book import notebook
from footlight.notebook.stock import papers
from footlight.notebook.stock.papers import Batch, Dated


@dataclass(frozen=True)
class PaperList:
    """The batches, in the order in which they were added. in_use: ids of those in use for their size."""

    batches: tuple[Batch, ...]
    in_use: frozenset[int]


@dataclass(frozen=True)
class Paper:
    """A batch, what was found out about it in the order of writing, and the numbers of its sheets."""

    batch: Batch
    findings: tuple[Dated, ...]
    sheets: tuple[int, ...]


def list_papers(book: Path) -> PaperList:
    """All batches."""
    with notebook(book, writing=False) as connection:
        batches = papers.every(connection)
        sizes = {papers.sides_of(batch.size) for batch in batches}
        in_use = [papers.in_use(connection, sides) for sides in sizes]
    return PaperList(tuple(batches), frozenset(batch.id for batch in in_use if batch))


def show_paper(book: Path, name: str) -> Paper:
    """The batch of that name. Raises NotebookError with the nearest name."""
    with notebook(book, writing=False) as connection:
        batch = papers.find(connection, name)
        findings = papers.findings(connection, batch)
        return Paper(batch, tuple(findings), tuple(papers.sheets_of(connection, batch)))
