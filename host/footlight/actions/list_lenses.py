"""The lenses of the notebook, and what their stops really are."""

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from footlight.actions.plan_camera import as_lens
from footlight.camera.lens import Card, card
from footlight.errors import InputError, act
from footlight.notebook.book import notebook
from footlight.notebook.stock import lenses
from footlight.notebook.stock.lenses import Lens
from footlight.quantities import FStop


def list_lenses(book: Path) -> list[Lens]:
    """All lenses by name, as last written."""
    with notebook(book, writing=False) as connection:
        return lenses.every(connection)


def lens_cards(
    book: Path, names: Sequence[str], stops: Sequence[FStop] = (), draws_mm: Sequence[float] = ()
) -> list[Card]:
    """Openings and true stops of the lenses named, or of all, at each draw [mm].

    stops: the marks; without any the usual ones, and those that were measured. Raises NotebookError for a
    name that is none, InputError where there is no lens at all.
    """
    with notebook(book, writing=False) as connection:
        listed = [lenses.find(connection, name) for name in names] or lenses.every(connection)
    if not listed:
        raise InputError(f"no lens is in the notebook; {act('lens add')} writes down the first")
    return [card(replace(as_lens(lens, tuple(stops)), draws_mm=tuple(draws_mm))) for lens in listed]
