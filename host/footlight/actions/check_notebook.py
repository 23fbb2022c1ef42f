"""Look a notebook through."""

from dataclasses import dataclass
from pathlib import Path

from footlight.notebook import soundness
from footlight.notebook.book import notebook


@dataclass(frozen=True)
class Soundness:
    """What was looked at, in rows, and what is wrong, a line each; no line where all is whole."""

    book: Path
    records: int
    sheets: int
    pictures: int
    faults: tuple[str, ...]


def check_notebook(book: Path) -> Soundness:
    """Read everything in the notebook. Raises NotebookError where it cannot be read at all."""
    with notebook(book, writing=False) as connection:
        wrong = (*soundness.broken(connection), *soundness.spoilt(connection))
        records, sheets, pictures = (
            connection.execute(f"SELECT count(*) FROM {table}").fetchone()[0]
            for table in ("journal", "sheets", "pictures")
        )
    return Soundness(book, records, sheets, pictures, wrong)
