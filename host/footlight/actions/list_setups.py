"""The references of light setups, as they were written over time."""

from pathlib import Path

from footlight.notebook.book import notebook
from footlight.notebook.stock import light_setups
from footlight.notebook.stock.light_setups import Dated

_MOST_CHANGES = 100_000


def list_setups(book: Path, name: str | None, most: int) -> list[Dated]:
    """The last `most` references that stand, of the setup of that name or of all, the newest first."""
    with notebook(book, writing=False) as connection:
        changes = light_setups.history(connection, most if name is None else _MOST_CHANGES)
    return [change for change in changes if name in (None, change.setup)][:most]
