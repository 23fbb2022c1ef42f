"""Measure the cells of a grid in the full scan, one small crop after the other: memory stays small."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from footlight.strips.find.place import Grid, Place
from footlight.strips.measure import mottle
from footlight.strips.measure.cells import Cell
from footlight.strips.scan.calibration import LUMINANCE, Calibration, density
from footlight.strips.scan.scan import Scan
from footlight.strips.scan.uneven import Surface

INSET_MM = 1.2
_SKEWED = 0.01  # rad: a smaller skew moves no tile by more than a tenth of a millimetre in a step
_MOST_TILES = 20  # along a side of a cell: 25 mm are enough
_STREAK = 8.0
_LEAST_TILES_LEFT = 9


@dataclass(frozen=True)
class Window:
    """A rectangle of a piece of paper [mm along, mm across] as pixels: its codes on the tile grid."""

    codes: NDArray
    side_px: int
    centre_mm: NDArray


def cell(
    scan: Scan, place: Place, along_mm: tuple[float, float], across_mm: tuple[float, float], tile_mm: float
) -> Window:
    """The codes of the middle of a rectangle, in whole tiles; nearest pixels where the strip is skewed."""
    side = max(1, round(tile_mm * scan.px_per_mm))
    tile = side / scan.px_per_mm
    starts, counts = [], []
    for low, high in (along_mm, across_mm):
        count = int(min(_MOST_TILES, max(1.0, (high - low) / tile + 1e-6)))
        starts.append((low + high - count * tile) / 2)
        counts.append(count)
    along = starts[0] + (np.arange(counts[0] * side) + 0.5) / scan.px_per_mm
    across = starts[1] + (np.arange(counts[1] * side) + 0.5) / scan.px_per_mm
    centre = place.at(float(along.mean()), float(across.mean()))
    return Window(_codes(scan, place, along, across), side, centre)


def _codes(scan: Scan, place: Place, along: NDArray, across: NDArray) -> NDArray:
    height, width = scan.pixels.shape[:2]
    if abs(place.along[1]) < _SKEWED and place.along[0] > 0 and place.across[1] > 0:
        corner = place.at(along[0], across[0]) * scan.px_per_mm
        x, y = (int(round(v - 0.5)) for v in corner)
        x, y = max(0, min(x, width - len(along))), max(0, min(y, height - len(across)))
        return scan.pixels[y : y + len(across), x : x + len(along)]
    points = place.origin_mm * scan.px_per_mm
    step_along, step_across = along * scan.px_per_mm, across * scan.px_per_mm
    columns = points[0] + step_along * place.along[0] + (step_across * place.across[0])[:, None]
    rows = points[1] + step_along * place.along[1] + (step_across * place.across[1])[:, None]
    columns = np.clip(columns, 0, width - 1).astype(np.intp)
    return scan.pixels[np.clip(rows, 0, height - 1).astype(np.intp), columns]


def cells(scan: Scan, grid: Grid, calibration: Calibration, uneven: Surface) -> dict[str, list[Cell]]:
    """Every cell of a grid: band → its steps in order."""
    found: dict[str, list[Cell]] = {}
    for band, step, along, across in grid.cells():
        found.setdefault(band, []).append(
            _inner(scan, grid.place, calibration, uneven, band, step, along, across)
        )
    return found


def _inner(scan, place, calibration, uneven, band: str, step: int, along, across) -> Cell:
    """A cell without its rims, which the blade's penumbra and the scanner's blur reach into."""
    inner = [(low + INSET_MM, high - INSET_MM) for low, high in (along, across)]
    return one(scan, place, calibration, uneven, band, step, inner[0], inner[1])


def one(
    scan: Scan,
    place: Place,
    calibration: Calibration,
    uneven: Surface,
    band: str,
    step: int,
    along_mm: tuple[float, float],
    across_mm: tuple[float, float],
) -> Cell:
    """A rectangle of a piece of paper as a cell."""
    window = cell(scan, place, along_mm, across_mm, mottle.TILE_MM)
    channels, tiles, variances = _tiles(window, calibration)
    tiles = tiles + uneven.at(_tile_places(window, place, tiles.shape, scan))
    mask, drops = _marks(tiles, variances)
    tiles = np.where(mask, np.nan, tiles)
    return Cell(band, step, tiles, variances, channels, drops, _clipped(window.codes, scan.bits))


def _tiles(window: Window, calibration: Calibration) -> tuple[tuple[float, ...], NDArray, NDArray]:
    """(density of each channel, tile means [D], variances within tiles [D²])."""
    planes = [window.codes] if window.codes.ndim == 2 else np.moveaxis(window.codes, 2, 0)
    parts = [table[plane] for table, plane in zip(calibration.tables, planes, strict=True)]
    light = (
        parts[0]
        if len(parts) == 1
        else np.einsum("c,cij->ij", np.array(LUMINANCE, np.float32), np.stack(parts))
    )
    n = window.side_px
    blocks = light.reshape(light.shape[0] // n, n, light.shape[1] // n, n)
    mean = blocks.mean(axis=(1, 3), dtype=np.float32).astype(float)
    square = np.einsum("iajb,iajb->ij", blocks, blocks, dtype=np.float64) / n**2
    variance = np.maximum(0, square - mean**2) * (np.log10(np.e) / np.maximum(mean, 1e-5)) ** 2
    return tuple(float(density(part.mean(dtype=float))) for part in parts), density(mean), variance


def _tile_places(window: Window, place: Place, shape: tuple[int, int], scan: Scan) -> NDArray:
    tile = window.side_px / scan.px_per_mm
    rows, columns = (tile * (np.arange(n) - (n - 1) / 2) for n in shape)
    return window.centre_mm + columns[None, :, None] * place.along + rows[:, None, None] * place.across


def _marks(tiles: NDArray, variances: NDArray) -> tuple[NDArray, int]:
    """Tiles that hold the rim of a drop, dust or a picture, with the tiles inside such rims; how many marks.

    A rim makes a tile far rougher than its neighbours; blotches of halide do not.
    """
    from scipy import ndimage

    if not variances.any():
        return np.zeros(tiles.shape, bool), 0
    rough = variances > _STREAK * np.median(variances) + 1e-9
    marked = np.asarray(ndimage.binary_fill_holes(rough), bool)
    count = int(ndimage.label(marked, structure=np.ones((3, 3)))[1])  # type: ignore[index]
    if marked.size - marked.sum() < _LEAST_TILES_LEFT:
        return np.zeros(tiles.shape, bool), count
    return marked, count


def _clipped(codes: NDArray, bits: int) -> float:
    return float(np.mean((codes == 0) | (codes == (1 << bits) - 1)))
