"""The statistics against scipy: the bootstrap of a cell, and where fitted curves cross their thresholds."""

import numpy as np
import pytest
from scipy import optimize, stats
from scipy.ndimage import gaussian_filter

from footlight.strips.judge import bootstrap, curve


def test_spread_of_means_is_that_of_scipy():
    """Tiles that know nothing of each other: blocks of one tile are the ordinary bootstrap of the mean.

    Ours is wider by √(n/(n − 1)), which makes it unbiased.
    """
    rng = np.random.default_rng(1)
    tiles = rng.normal(1.0, 0.01, (10, 10))
    ours = bootstrap.resample(tiles, 1, rng, count=4000)[0]
    theirs = stats.bootstrap((tiles.ravel(),), np.mean, n_resamples=4000, method="percentile", rng=rng)
    assert ours.std() == pytest.approx(theirs.standard_error * np.sqrt(100 / 99), rel=0.05)
    low, high = np.quantile(ours, [0.025, 0.975])
    width = theirs.confidence_interval.high - theirs.confidence_interval.low
    assert high - low == pytest.approx(width, rel=0.08)
    assert bootstrap.standard_error(tiles, 1) == pytest.approx(stats.sem(tiles.ravel()), rel=1e-9)


def test_blocks_see_what_lies_close_together():
    """Blotches of some tiles: the true scatter of means over many fields against what blocks say."""
    rng = np.random.default_rng(2)
    fields = [gaussian_filter(rng.standard_normal((18, 18)), 1.2, mode="wrap") for _ in range(200)]
    true = float(np.std([field.mean() for field in fields], ddof=1))
    single, blocks = (
        float(np.sqrt(np.mean([bootstrap.standard_error(field, side) ** 2 for field in fields])))
        for side in (1, 3)
    )
    assert bootstrap.block_side(fields) == 3
    assert abs(blocks - true) < abs(single - true)
    assert single < 0.6 * true


@pytest.mark.parametrize("form", curve.FORMS, ids=lambda form: form.name)
@pytest.mark.parametrize(("steep", "middle"), [(0.9, -0.4), (1.3, 0.3)])
def test_full_black_is_where_scipy_finds_it(form, steep, middle):
    """A noise-free strip of the fitted form; its root by scipy's brentq."""
    plateau_d, base_d = 2.0, 0.08

    def black_d(x):
        return plateau_d - (plateau_d - base_d) * form.share(steep * (np.asarray(x) - middle))

    root = optimize.brentq(lambda x: float(black_d(x)) - (plateau_d - 0.05), -8, 8)
    x = np.arange(-3.0, 5.5)
    density_d = np.tile(black_d(x), (3, 1))
    sigma_d = np.full(x.shape, 0.002)
    params, misfit = curve.black(form, x, density_d, sigma_d, np.full(3, plateau_d), np.full(3, base_d))
    level = float(form.inner(np.array(0.05 / (plateau_d - base_d))))
    found = curve.crossing(params - np.array([level, 0, 0]), 0.0, x[0], x[-1])
    assert found == pytest.approx(root, abs=0.01)
    assert misfit < 0.01


def test_a_rise_is_where_scipy_finds_it():
    """A veil that grows as a power of the dose, in units of its threshold."""
    x = np.arange(-3.0, 4.0)
    rises = np.tile(np.exp(1.0 * (x - 0.7)), (3, 1))
    params = curve.rise(x, rises, 0.03, 0.05, 0.8)
    root = optimize.brentq(lambda at: np.exp(at - 0.7) - 1, -5, 5)
    assert curve.crossing(params, 0.0, x[0], x[-1]) == pytest.approx(root, abs=0.03)
