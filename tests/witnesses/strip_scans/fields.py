"""Random fields of known spectrum, and mottle in the definition of docs/reading-strips.md.

Mottle: tiles of 1.27 mm (ISO/IEC 13660, layout from memory), tilt removed, the standard deviation of the tile
means. A field's *expected* mottle follows from its covariance; a cell's *own* is measured on its own drawing
before any scanner sees it.
"""

from dataclasses import dataclass

import numpy as np
from scipy.fft import irfft2, next_fast_len, rfft2

TILE_MM = 1.27
FIELD_MM = 12.7


@dataclass(frozen=True)
class Spectrum:
    """Power of a Gaussian field over frequency: of a length [mm], as a bell, a power law or a ring."""

    kind: str
    length_mm: float

    def power(self, cycles_per_mm: np.ndarray) -> np.ndarray:
        scaled = cycles_per_mm * self.length_mm
        if self.kind == "bell":
            return np.exp(-((np.pi * scaled / 1.4) ** 2))
        if self.kind == "power":
            return (1 + (2 * scaled) ** 2) ** -1.75
        return np.exp(-(((scaled - 0.35) / 0.18) ** 2))


def _frequencies(shape: tuple[int, int], pitch_mm: float) -> np.ndarray:
    down = np.fft.fftfreq(shape[0], pitch_mm)[:, None]
    across = np.fft.rfftfreq(shape[1], pitch_mm)[None, :]
    return np.hypot(down, across)


def gaussian(
    spectrum: Spectrum, shape: tuple[int, int], pitch_mm: float, rng: np.random.Generator
) -> np.ndarray:
    """A field of mean 0 and standard deviation 1 over the ensemble, not over this drawing."""
    down, across = (_fast(side + round(12 / pitch_mm)) for side in shape)
    return periodic(spectrum, (down, across), pitch_mm, rng)[: shape[0], : shape[1]]


def _fast(side: int) -> int:
    """An even side of which the transform is quick."""
    return 2 * int(next_fast_len((side + 1) // 2, True) or side)


def periodic(
    spectrum: Spectrum, shape: tuple[int, int], pitch_mm: float, rng: np.random.Generator
) -> np.ndarray:
    """The same, joining itself at its edges."""
    power = spectrum.power(_frequencies(shape, pitch_mm))
    noise = np.asarray(rfft2(rng.standard_normal(shape, dtype=np.float32)))
    # irfft2 of noise times h has the variance mean(|h|^2) over the whole plane.
    whole = _whole_plane_mean(power, shape)
    return np.asarray(irfft2(noise * np.sqrt(power / whole).astype(np.float32), shape))


def _whole_plane_mean(power: np.ndarray, shape: tuple[int, ...]) -> float:
    twice = power.copy()
    twice[:, 1 : (shape[1] + 1) // 2] *= 2
    return float(twice.sum() / (shape[0] * shape[1]))


def lognormal(field: np.ndarray, point_share: float) -> np.ndarray:
    """Mean 1, standard deviation `point_share`, never below zero: silver left in patches."""
    sigma = np.sqrt(np.log1p(point_share**2))
    return np.exp(sigma * field - sigma**2 / 2)


def tiles_of(size_mm: float) -> int:
    """How many tiles lie across a cell: those of 12.7 mm, or what the cell holds away from its edges."""
    return min(round(FIELD_MM / TILE_MM), int((size_mm - 2.0) / TILE_MM))


def expected_mottle(spectrum: Spectrum, point_share: float, tiles: tuple[int, int]) -> float:
    """Root of the mean square of the mottle of a lognormal field of mean 1, tilt removed: E s²."""
    pitch, side = TILE_MM / 10, 320
    shape = (side, side)
    power = spectrum.power(_frequencies(shape, pitch))
    correlation = np.asarray(irfft2(power.astype(complex), shape))
    correlation /= correlation[0, 0]
    covariance = np.expm1(np.log1p(point_share**2) * correlation)
    triangle = np.zeros(side)
    lags = np.arange(-9, 10)
    triangle[lags] = (10 - np.abs(lags)) / 100
    window = np.asarray(rfft2(np.outer(triangle, triangle)))
    of_tiles = np.asarray(irfft2(np.asarray(rfft2(covariance)) * window, shape))
    return float(np.sqrt(_spread(of_tiles[::10, ::10], tiles)))


def _spread(by_lag: np.ndarray, tiles: tuple[int, int]) -> float:
    down, across = (axis.ravel() for axis in np.mgrid[: tiles[0], : tiles[1]])
    matrix = by_lag[np.abs(down[:, None] - down), np.abs(across[:, None] - across)]
    plane = np.linalg.qr(np.stack([np.ones_like(down), down, across], axis=1).astype(float))[0]
    left = np.trace(matrix) - np.trace(plane.T @ matrix @ plane)
    return left / (len(down) - 1)


def own_mottle(density_d: np.ndarray, pitch_mm: float, tiles: tuple[int, int]) -> float:
    """The mottle of one cell's drawing [D], its tiles laid in nine places, root mean square of the nine."""
    size = TILE_MM / pitch_mm
    room = [side - count * size for side, count in zip(density_d.shape, tiles, strict=True)]
    sums = np.pad(density_d.astype(float).cumsum(0).cumsum(1), ((1, 0), (1, 0)))
    squares = []
    for place in np.ndindex(3, 3):
        edges = [
            np.round(room[axis] * place[axis] / 2 + size * np.arange(tiles[axis] + 1)).astype(int)
            for axis in (0, 1)
        ]
        corners = sums[np.ix_(*edges)]
        areas = np.diff(edges[0])[:, None] * np.diff(edges[1])[None, :]
        means = np.diff(np.diff(corners, axis=0), axis=1) / areas
        squares.append(_without_tilt(means).var(ddof=1))
    return float(np.sqrt(np.mean(squares)))


def _without_tilt(means: np.ndarray) -> np.ndarray:
    down, across = (axis.ravel() for axis in np.mgrid[: means.shape[0], : means.shape[1]])
    plane = np.stack([np.ones_like(down), down, across], axis=1).astype(float)
    fit = np.linalg.lstsq(plane, means.ravel(), rcond=None)[0]
    return means.ravel() - plane @ fit
