"""Lenses as tables: all of them, and the stops of one."""

from collections.abc import Sequence

from footlight.camera.lens import Card
from footlight.camera.page import f_number, foot_rows
from footlight.notebook.stock.lenses import Lens
from footlight.quantities import format_length_mm
from footlight.views.table import Grid


def lens_lines(listed: Sequence[Lens], width: int | None = None) -> list[str]:
    """Lenses as a table, `width` characters wide at most; nothing without any."""
    return grid(listed).lines(width)


def grid(listed: Sequence[Lens]) -> Grid:
    """Lenses as a table."""
    rows = [
        [lens.name, f"{lens.focal_mm:g} mm", lens.widest, lens.true_stops or "–", lens.note]
        for lens in listed
    ]
    return Grid(["lens", "focal", "widest", "measured stops", "note"], rows)


def card_lines(card: Card) -> list[str]:
    """A lens's card as a table of text."""
    note = ["* measured"] if any(row.measured for row in card.rows) else []
    return [card_title(card), *card_grid(card).lines(), *note]


def card_title(card: Card) -> str:
    """Whose card it is."""
    return f"{card.lens.name}, {card.lens.focal_mm:g} mm: the f-number that counts, by draw"


def card_grid(card: Card) -> Grid:
    """Openings and true stops; a star marks what was measured."""
    head = ["mark", "opening", *(format_length_mm(column.draw_mm) for column in card.columns)]
    rows = [
        [str(row.stop), f"{row.diameter_mm:.1f}{'*' if row.measured else ''} mm", *map(f_number, row.true)]
        for row in card.rows
    ]
    rows += [[heading, "", *cells] for heading, cells in foot_rows(card.columns)]
    return Grid(head, rows)
