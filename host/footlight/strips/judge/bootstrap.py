"""Resample cells in blocks as large as their blotches, so that what lies close together stays together."""

import math

import numpy as np
from numpy.typing import NDArray

from footlight.strips.measure import mottle

REPLICATES = 400
_LARGEST_BLOCK = 3


def block_side(fields: list[NDArray]) -> int:
    """Tiles along a block: where the correlation of tiles [tilt removed] has fallen below one quarter."""
    flats = [np.nan_to_num(mottle.without_tilt(f) - np.nanmean(f)) for f in fields]
    power = sum(float((flat**2).mean()) for flat in flats)
    for lag in range(1, _LARGEST_BLOCK):
        shared = sum(float((flat[:, lag:] * flat[:, :-lag]).mean()) for flat in flats if flat.shape[1] > lag)
        if power <= 0 or shared / power < 0.25:
            return lag
    return _LARGEST_BLOCK


def resample(tiles: NDArray, side: int, rng: np.random.Generator, count: int = REPLICATES) -> NDArray:
    """(2, count): means [D] and tilt-free variances [D²] of replicates of one cell, spread to be unbiased."""
    good = np.isfinite(tiles)
    flat = mottle.without_tilt(tiles)
    centre = float(np.nanmean(tiles))
    _, block = np.unique(_blocks(tiles.shape, side)[good], return_inverse=True)
    size = np.bincount(block)
    sums = np.stack(
        [size, np.bincount(block, tiles[good] - centre), np.bincount(block, (flat[good] - centre) ** 2)]
    )
    blocks = len(size)
    weights = rng.multinomial(blocks, np.full(blocks, 1 / blocks), count).astype(float)
    number, mean, square = weights @ sums[0], weights @ sums[1], weights @ sums[2]
    wider = math.sqrt(blocks / max(1, blocks - 1))
    free = good.sum() / max(1, good.sum() - 3)
    variance = mottle.spread(flat) ** 2
    return np.stack(
        [
            centre + wider * mean / number,
            np.maximum(0, variance + wider * (free * square / number - variance)),
        ]
    )


def standard_error(tiles: NDArray, side: int) -> float:
    """Of the mean of a cell [D], from its blocks."""
    good = np.isfinite(tiles)
    block = _blocks(tiles.shape, side)[good]
    size = np.bincount(block)
    means = np.bincount(block, tiles[good])[size > 0] / size[size > 0]
    return float(means.std(ddof=1) / math.sqrt(len(means))) if len(means) > 1 else math.nan


def _blocks(shape: tuple[int, ...], side: int) -> NDArray:
    """The number of the block that each tile belongs to."""
    rows, columns = np.indices(shape) // side
    return rows * (shape[1] // side + 1) + columns
