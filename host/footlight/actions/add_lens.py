"""A lens is written down: as measured, or as it stands in the camera file."""

from collections.abc import Sequence
from pathlib import Path

from footlight.camera.settings import Settings
from footlight.notebook.book import notebook
from footlight.notebook.stock import lenses
from footlight.notebook.stock.lenses import Lens
from footlight.quantities import FStop

Opening = tuple[str, float]  # a mark as written, and the diameter of the opening [mm]


def measured(
    name: str,
    focal_mm: float,
    widest: FStop | None,
    true: Sequence[str],
    openings: Sequence[Opening],
    note: str,
) -> Lens:
    """A lens from its measured stops ('f/32 = 29.4') and openings. focal_mm [mm]."""
    stops = [*true, *(f"{mark} = {_true(focal_mm, diameter_mm)}" for mark, diameter_mm in openings)]
    return Lens(name, focal_mm, f"{widest}" if widest else "", ", ".join(stops), note)


def from_file(settings: Settings, name: str, widest: FStop | None, note: str) -> Lens:
    """The lens of that name in a camera file. Raises InputError with the nearest."""
    lens = settings.lens(name)
    openings = [(f"{mark}", diameter_mm) for mark, diameter_mm in lens.measured_mm]
    return measured(name, lens.focal_mm, widest or lens.stops[0], (), openings, note)


def add_lens(book: Path, lens: Lens, now_s: int) -> None:
    """Write it down; an entry of the same name is thereby replaced. Raises InputError for stops of none."""
    with notebook(book, writing=True) as connection:
        lenses.add(connection, lens, now_s)


def _true(focal_mm: float, diameter_mm: float) -> str:
    return f"{focal_mm / diameter_mm:.4g}"
