"""What a search found, as a table."""

from collections.abc import Sequence

from footlight.notebook.sheets.remarks import Hit
from footlight.views.table import Grid
from footlight.views.times import date_text


def lines(hits: Sequence[Hit], width: int | None = None) -> list[str]:
    """A row for each, `width` characters wide at most; nothing without any."""
    return grid(hits).lines(width)


def grid(hits: Sequence[Hit]) -> Grid:
    """A row for each."""
    rows = [[_of(hit), _written(hit), hit.kind, hit.text] for hit in hits]
    return Grid(["of", "written", "kind", "text"], rows)


def _of(hit: Hit) -> str:
    return hit.about if hit.sheet is None else f"sheet {hit.sheet}"


def _written(hit: Hit) -> str:
    return "–" if hit.written_unix_s is None else date_text(hit.written_unix_s)
