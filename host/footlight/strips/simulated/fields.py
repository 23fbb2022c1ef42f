"""Blotches: one random field over the sheet, from which both veil and mottle come."""

import numpy as np
from numpy.typing import NDArray

from footlight.strips.measure import mottle

PX_PER_MM = 2 / mottle.TILE_MM


def gaussian(height_mm: float, width_mm: float, blotch_mm: float, rng: np.random.Generator) -> NDArray:
    """A smooth field of mean 0 and deviation 1 at `PX_PER_MM`; blotch_mm: radius of its blotches [mm]."""
    from scipy.ndimage import gaussian_filter

    shape = tuple(int(np.ceil(length * PX_PER_MM)) + 2 for length in (height_mm, width_mm))
    sigma = blotch_mm * PX_PER_MM
    smooth = gaussian_filter(rng.standard_normal(shape), sigma, mode="wrap")
    return smooth * 2 * np.sqrt(np.pi) * sigma


def halide(field: NDArray, cv: float) -> NDArray:
    """Halide left in the cleared whites: lognormal of mean 1 and relative deviation `cv`."""
    log_sigma = np.sqrt(np.log1p(cv**2))
    return np.exp(log_sigma * field - log_sigma**2 / 2)


def tile_cv(cv: float, blotch_mm: float, side: int, seed: int = 1) -> float:
    """What mottle of mean 1 measures over fields of side × side tiles, tilt removed: root mean square."""
    rng = np.random.default_rng(seed)
    over_mm = 24 * side * mottle.TILE_MM
    field = halide(gaussian(over_mm, over_mm, blotch_mm, rng), cv)
    n = 24 * side
    tiles = field[: 2 * n, : 2 * n].reshape(n, 2, n, 2).mean(axis=(1, 3))
    fields = tiles.reshape(24, side, 24, side).swapaxes(1, 2).reshape(-1, side, side)
    return float(np.sqrt(np.mean([mottle.spread(mottle.without_tilt(one)) ** 2 for one in fields])))
