"""References of light setups as a table."""

from collections.abc import Sequence
from pathlib import Path

from footlight.notebook.stock.light_setups import Dated
from footlight.views.table import Grid
from footlight.views.times import date_text


def lines(listed: Sequence[Dated], width: int | None = None) -> list[str]:
    """A row for each change, `width` characters wide at most; nothing without any."""
    return grid(listed).lines(width)


def grid(listed: Sequence[Dated]) -> Grid:
    """A row for each change."""
    rows = [
        [
            date_text(change.done_unix_s),
            change.setup,
            change.before or "none",
            change.after,
            f"reading {change.reading_id}" if change.reading_id else "–",
            Path(change.file).name,
        ]
        for change in listed
    ]
    return Grid(["written", "setup", "before", "after", "after strip", "file"], rows)
