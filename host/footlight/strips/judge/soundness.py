"""What a reading must pass before it is believed: paper cannot do otherwise, so the reader must have erred.

A wrong dose costs a sheet, a refusal a second scan. Each check is plain physics of a reversed strip:
nothing is
lighter than a perfect white; before any second exposure all bands are bare paper; no white grows lighter with
light.
"""

from footlight.errors import field
from footlight.strips.errors import ScanError
from footlight.strips.measure.cells import WHITE_BANDS, Cell

# A perfect diffuser has 0 D (ISO 5-4); the rest is doubt of tablet and scanner.
_LIGHTEST_D = -0.02
# Twice the doubt of a cell by tablet (0.02 D), and the fall-off of a scanner's light between two bands.
_ZEROS_APART_D = 0.06
_FALL_D = 0.04


def check(cells: dict[str, list[Cell]], name: str, doubt_d: float) -> None:
    """Raise ScanError, one line, for densities [D] that no strip can have; doubt_d: of the calibration."""
    _lighter_than_white(cells, name)
    _zeros_apart(cells, name, doubt_d)
    _falling_white(cells, name)


def _lighter_than_white(cells: dict[str, list[Cell]], name: str) -> None:
    lightest = min((cell for row in cells.values() for cell in row), key=lambda cell: cell.density_d)
    if lightest.density_d < _LIGHTEST_D:
        raise ScanError(
            f"{name}: {lightest.band}, step {lightest.step}, comes out at {lightest.density_d:.2f}"
            f" D, lighter than"
            f" any paper: strip or tablet were taken for something else; {_BY_HAND}"
        )


def _zeros_apart(cells: dict[str, list[Cell]], name: str, doubt_d: float) -> None:
    zeros = {band: cells[band][0].density_d for band in WHITE_BANDS if band in cells}
    if len(zeros) == 2 and abs(zeros["white"] - zeros["white2"]) > _ZEROS_APART_D + doubt_d:
        raise ScanError(
            f"{name}: before any second exposure the white bands have {zeros['white']:.2f} and"
            f" {zeros['white2']:.2f} D: one lies across a picture, or the bands lie in another"
            f" order; scan a strip"
            f" on plain paper, or name the order, {field('bands')}"
        )


def _falling_white(cells: dict[str, list[Cell]], name: str) -> None:
    for band in WHITE_BANDS:
        row = cells.get(band, ())
        if row and row[-2].density_d < row[0].density_d - _FALL_D:
            raise ScanError(
                f"{name}: the band '{band}' falls from {row[0].density_d:.2f} to"
                f" {row[-2].density_d:.2f} D, and no"
                f" white grows lighter with light: {_BY_HAND}"
            )


_BY_HAND = "look at the picture, lay strip and tablet on an even sheet and scan again"
