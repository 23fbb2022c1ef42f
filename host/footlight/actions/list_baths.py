"""The baths as they stand: those in use, or one of a name with everything about it."""

from dataclasses import dataclass
from pathlib import Path

from footlight.baths.condition import Condition, Shelf, shelf, unknown_sheets
from footlight.errors import act
from footlight.notebook.book import notebook
from footlight.notebook.errors import NotebookError


@dataclass(frozen=True)
class BathList:
    """The baths in use. unknown_sheets: how many were in trays that this notebook knows nothing of."""

    shelf: Shelf
    unknown_sheets: int


def list_baths(book: Path, now_s: int) -> BathList:
    """The baths in use, as they stand at `now_s` [s since 1970]."""
    with notebook(book, writing=False) as connection:
        standing = shelf(connection, now_s)
        return BathList(standing, unknown_sheets(connection, standing))


def show_bath(book: Path, name: str, before: int, now_s: int) -> Condition:
    """The last bath of that name, or the one `before` it by so many. Raises NotebookError for none."""
    with notebook(book, writing=False) as connection:
        conditions = shelf(connection, now_s, [name]).conditions[::-1]
    if before >= len(conditions):
        raise no_bath(name, len(conditions))
    return conditions[before]


def no_bath(name: str, count: int = 0) -> NotebookError:
    """The error for a bath that the notebook has not, of `count` that it has of the name."""
    return NotebookError(
        f"bath '{name}': {count or 'none'} of that name in the notebook; see {act('bath list')}"
    )
