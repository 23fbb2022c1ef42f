"""Lenses as tables: all of them, and the stops of one."""

from collections.abc import Sequence

from footlight.camera.lens import Card
from footlight.camera.page import f_number, foot_rows
from footlight.notebook.stock.lenses import Lens
from footlight.quantities import format_length_mm
from footlight.views.table import columns


def lens_lines(listed: Sequence[Lens], width: int | None = None) -> list[str]:
    """Lenses as a table, `width` characters wide at most; nothing without any."""
    rows = [
        [lens.name, f"{lens.focal_mm:g} mm", lens.widest, lens.true_stops or "–", lens.note]
        for lens in listed
    ]
    return columns(["lens", "focal", "widest", "measured stops", "note"], rows, width)


def card_lines(card: Card) -> list[str]:
    """A lens's card as a table of text."""
    head = ["mark", "opening", *(format_length_mm(column.draw_mm) for column in card.columns)]
    rows = [
        [str(row.stop), f"{row.diameter_mm:.1f}{'*' if row.measured else ''} mm", *map(f_number, row.true)]
        for row in card.rows
    ]
    rows += [[heading, "", *cells] for heading, cells in foot_rows(card.columns)]
    note = ["* measured"] if any(row.measured for row in card.rows) else []
    title = f"{card.lens.name}, {card.lens.focal_mm:g} mm: the f-number that counts, by draw"
    return [title, *columns(head, rows), *note]
