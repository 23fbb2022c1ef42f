"""Graininess and mottle after ISO/IEC 13660: tiles of 1.27 mm, split near 0.4 cycles/mm.

mottle = standard deviation of the tile means; graininess = root of the mean variance within tiles. The
standard's field is 100 tiles (12.7 mm square). A step of a strip rarely holds that: at least 60 are asked
for, and the departure is said. The tilt of the field (a plane) is removed first: the standard would count it.
Layout of tiles: ISO/IEC 13660:2001, from memory; now ISO/IEC 24790.
"""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

TILE_MM = 1.27
LEAST_TILES = 60
COARSE_TILES = 3  # 3 × 3 tiles, 3.8 mm: blotches of about 3 to 15 mm


@dataclass(frozen=True)
class Mottle:
    """All in D. coarse_d: the second scale, of 3.8 mm squares (blotches of about 3–15 mm)."""

    graininess_d: float
    mottle_d: float
    coarse_d: float
    tiles: int


def tile_px(ppi: float) -> int:
    """The side of a tile [px]."""
    return max(1, round(TILE_MM * ppi / 25.4))


def without_tilt(tiles: NDArray) -> NDArray:
    """Tile means less their plane; masked tiles are NaN and stay so."""
    rows, columns = np.mgrid[: tiles.shape[0], : tiles.shape[1]]
    good = np.isfinite(tiles)
    design = np.column_stack([np.ones(good.sum()), rows[good], columns[good]])
    level, *_ = np.linalg.lstsq(design, tiles[good], rcond=None)
    plane = level[0] + level[1] * rows + level[2] * columns
    return tiles - plane + np.nanmean(tiles)


def spread(tiles: NDArray) -> float:
    """Standard deviation of the tile means [D], with the plane's degrees of freedom taken off."""
    good = tiles[np.isfinite(tiles)]
    if good.size < 5:
        return math.nan
    return float(math.sqrt(np.sum((good - good.mean()) ** 2) / (good.size - 3)))


def coarse(tiles: NDArray) -> float:
    """Standard deviation [D] of squares of 3 × 3 tiles, masked tiles left out of their square."""
    n = COARSE_TILES
    rows, columns = tiles.shape[0] // n, tiles.shape[1] // n
    if rows * columns < 4:
        return math.nan
    squares = tiles[: rows * n, : columns * n].reshape(rows, n, columns, n).swapaxes(1, 2).reshape(-1, n * n)
    full = squares[np.isfinite(squares).sum(axis=1) > n]
    return float(np.nanmean(full, axis=1).std(ddof=1)) if len(full) >= 4 else math.nan


def excess(mottle_d: float, zero_d: float) -> float:
    """What a step has beyond the zero step, in variance [D]; 0 where it has less."""
    return math.sqrt(max(0.0, mottle_d**2 - zero_d**2))


def of_tiles(tiles: NDArray, variances: NDArray) -> Mottle:
    """From tile means [D] and the variances within tiles [D²]."""
    flat = without_tilt(tiles)
    good = np.isfinite(tiles)
    return Mottle(float(math.sqrt(np.mean(variances[good]))), spread(flat), coarse(flat), int(good.sum()))


def of_density(field_d: NDArray, ppi: float) -> Mottle:
    """From an upright plain field of densities [D] at `ppi` [1/in]."""
    n = tile_px(ppi)
    rows, columns = field_d.shape[0] // n, field_d.shape[1] // n
    tiles = field_d[: rows * n, : columns * n].reshape(rows, n, columns, n)
    return of_tiles(tiles.mean(axis=(1, 3)), tiles.var(axis=(1, 3)))
