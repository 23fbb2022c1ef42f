"""What was written is found again."""

from pathlib import Path

from footlight.notebook.book import notebook
from footlight.notebook.sheets import remarks
from footlight.notebook.sheets.remarks import Hit


def search_notebook(book: Path, words: str, most: int) -> list[Hit]:
    """What stands and holds all these words, or words that begin so: the last `most`, the newest first.

    Raises InputError for no word.
    """
    with notebook(book, writing=False) as connection:
        return remarks.search(connection, words, most)
