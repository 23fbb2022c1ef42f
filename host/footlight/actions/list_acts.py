"""What was entered into the notebook, also what was taken back."""

from pathlib import Path

from footlight.notebook import acts
from footlight.notebook.acts import Dated
from footlight.notebook.book import notebook


def list_acts(book: Path, most: int) -> list[Dated]:
    """The last `most` acts, the newest first."""
    with notebook(book, writing=False) as connection:
        return acts.recent(connection, most)
