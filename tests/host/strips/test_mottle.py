"""Graininess and mottle against ISO/IEC 13660 by arithmetic, and against scikit-image and scipy."""

import numpy as np
import pytest
from scipy import signal
from skimage import measure

from footlight.strips.measure import mottle

PPI = 600
TILE = (30, 30)  # px: 1.27 mm at 600 ppi
FIELD = 300  # px: 12.7 mm at 600 ppi


def test_white_noise():
    """σ 0.01 D: graininess 0.0100, mottle σ/30 at 600 ppi (900 pixels a tile); arithmetic."""
    field = np.random.default_rng(1).normal(1.0, 0.01, (FIELD, FIELD))
    found = mottle.of_density(field, PPI)
    assert found.tiles == 100
    assert found.graininess_d == pytest.approx(0.0100, rel=0.01)
    assert found.mottle_d == pytest.approx(0.01 / 30, rel=0.15)


def test_sine_of_three_cycles():
    """3 cycles a field, amplitude 0.01 D: mottle 0.0061 (before the tilt is removed); arithmetic."""
    x = (np.arange(FIELD) + 0.5) / FIELD
    field = np.broadcast_to(1 + 0.01 * np.sin(2 * np.pi * 3 * x), (FIELD, FIELD))
    raw = measure.block_reduce(field, TILE, np.mean)  # pyright: ignore[reportArgumentType]
    assert raw.std() == pytest.approx(0.0061, abs=0.00005)
    assert mottle.spread(raw) == pytest.approx(0.0061, rel=0.03)
    # Three whole cycles still lean a little: taking the tilt off takes some of the sine with it.
    assert mottle.of_density(field, PPI).mottle_d == pytest.approx(0.0061, rel=0.08)


def test_ramp():
    """0.02 D across the field: 0.0058 in the standard's measure, nothing once the tilt is removed."""
    field = np.broadcast_to(np.linspace(1.0, 1.02, FIELD), (FIELD, FIELD))
    tiles = measure.block_reduce(field, TILE, np.mean)  # pyright: ignore[reportArgumentType]
    assert tiles.std() == pytest.approx(0.0058, abs=0.0001)
    assert mottle.of_density(field, PPI).mottle_d < 1e-9


def test_witness():
    """The same from scikit-image's block means and scipy's detrending of both axes."""
    rng = np.random.default_rng(3)
    rows, columns = np.mgrid[:FIELD, :FIELD] / FIELD
    field = (
        0.1
        + rng.normal(0, 0.004, (FIELD, FIELD))
        + 0.01 * np.sin(9 * rows) * np.cos(11 * columns)
        + 0.02 * rows
    )
    tiles = measure.block_reduce(field, TILE, np.mean)  # pyright: ignore[reportArgumentType]
    # A plane is removed by removing the mean slope along each axis: detrend the marginal means.
    plane = (tiles.mean(axis=1) - signal.detrend(tiles.mean(axis=1)))[:, None]
    plane = plane + (tiles.mean(axis=0) - signal.detrend(tiles.mean(axis=0)))[None, :] - tiles.mean()
    flat = tiles - plane
    found = mottle.of_density(field, PPI)
    assert found.mottle_d == pytest.approx(np.sqrt((flat**2).sum() / 97), rel=1e-6)
    variance = measure.block_reduce(field**2, TILE, np.mean) - tiles**2  # pyright: ignore[reportArgumentType]
    assert found.graininess_d == pytest.approx(np.sqrt(variance.mean()), rel=1e-6)


def test_second_scale_sees_what_is_coarse():
    x = (np.arange(FIELD) + 0.5) / FIELD
    slow = np.broadcast_to(0.01 * np.sin(2 * np.pi * 1.5 * x), (FIELD, FIELD))
    fast = np.broadcast_to(0.01 * np.sin(2 * np.pi * 5 * x), (FIELD, FIELD))
    assert mottle.of_density(slow, PPI).coarse_d > 2 * mottle.of_density(fast, PPI).coarse_d


def test_excess_is_in_variance():
    assert mottle.excess(0.005, 0.003) == pytest.approx(0.004)
    assert mottle.excess(0.002, 0.003) == 0
