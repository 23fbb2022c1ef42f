"""The notebook as a whole: a checked copy of it, everything in it for other programs, and back again."""

from dataclasses import dataclass
from pathlib import Path

from footlight.notebook import exchange, restore, restore_csv
from footlight.notebook.book import checked_copy, notebook


@dataclass(frozen=True)
class BackUp:
    """A copy of so many bytes. spoilt: what had been spoilt in the notebook before, a line each."""

    bytes: int
    spoilt: tuple[str, ...]


@dataclass(frozen=True)
class RestoredNotebook:
    """So many rows, and the version of the notebook that they were exported from. spoilt: as of a back-up."""

    rows: int
    from_version: int
    spoilt: tuple[str, ...]


def back_up(book: Path, copy: Path) -> BackUp:
    """Write a whole, checked copy, also while the notebook is in use.

    Raises InputError where there is such a file already.
    """
    with notebook(book, writing=False) as connection:
        spoilt = checked_copy(connection, copy)
    return BackUp(copy.stat().st_size, tuple(spoilt))


def export_json(book: Path, target: Path) -> int:
    """Write everything into a new JSON file -> how many rows."""
    with notebook(book, writing=False) as connection:
        return exchange.write_json(connection, target)


def export_csv(book: Path, folder: Path) -> int:
    """Write everything into a new folder of CSV files -> how many tables."""
    with notebook(book, writing=False) as connection:
        return len(exchange.write_csv(connection, folder))


def restore_notebook(exported: Path, book: Path) -> RestoredNotebook:
    """A new notebook of what was exported, a JSON file or a CSV folder; all or nothing.

    Raises NotebookError for what was not exported, and for a notebook that holds anything.
    """
    tables = restore_csv.read_csv(exported) if exported.is_dir() else restore.read_json(exported)
    spoilt = restore.restore(tables, book)
    return RestoredNotebook(tables.count, tables.version, tuple(spoilt))
