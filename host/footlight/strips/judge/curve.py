"""Fit many replicates of a curve at once: weighted, damped Gauss-Newton over arrays.

Black is fitted near its threshold as plateau − span · share(a + b·x + c·x²), x in stops, in two forms. With
c = 0 they are the saturating curve of a layer whose grains are hit at random (Weibull), and the symmetrical S
of the logistic curve; c lets the shoulder be another one. No paper need follow either: how far apart they
come out is what the unknown shape costs.
A rise of veil or of excess variance is exp(a + b·x + c·x²): a power of the dose, bent by c. Both are monotone
where they cross their threshold: b is kept positive there, and c is held near zero by a prior.
"""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

_LOOPS = 20
_NEVER = np.inf


def _solve(start, x, y, weight, prior, prior_weight, model):
    """Gauss-Newton over replicates: start (B, 3), x (n,), y and weight (B, n). Returns parameters (B, 3)."""
    design = np.stack([np.ones_like(x), x, x * x], axis=1)
    p = start.copy()
    for _ in range(_LOOPS):
        fitted, slope = model(np.clip(p @ design.T, -12, 8))
        jacobian = slope[:, :, None] * design[None]
        weighted = jacobian * weight[:, :, None]
        normal = np.swapaxes(weighted, 1, 2) @ jacobian + np.diag(prior_weight)
        gradient = np.einsum("bnk,bn->bk", weighted, y - fitted) + prior_weight * (prior - p)
        step = np.linalg.solve(normal, gradient[:, :, None])[:, :, 0]
        p = p + np.clip(step, -0.7, 0.7)
        if np.abs(step).max() < 2e-3:
            break
    return p


def crossing(p: NDArray, level: float, least: float, most: float) -> NDArray:
    """Where a + b·x + c·x² first rises through `level` between `least` and `most`, replicate by replicate.

    Below `least`: −inf; not before `most`: inf.
    """
    grid = np.linspace(least, most, 241)
    values = p[:, :1] + p[:, 1:2] * grid + p[:, 2:] * grid**2 - level
    above = values >= 0
    first = above.argmax(axis=1)
    rows = np.arange(len(p))
    before = np.maximum(first - 1, 0)
    low, high = values[rows, before], values[rows, first]
    share = np.where(high > low, -low / np.where(high > low, high - low, 1), 0)
    found = grid[before] + share * (grid[1] - grid[0])
    found = np.where(first == 0, -_NEVER, found)
    return np.where(above.any(axis=1), found, _NEVER)


@dataclass(frozen=True)
class Form:
    """A form of the black near its top. share: what is missing from the plateau, as a share of the span, of
    an inner value u that rises with the dose; slope: −d share/du; inner: u of a share."""

    name: str
    share: Callable[[NDArray], NDArray]
    slope: Callable[[NDArray], NDArray]
    inner: Callable[[NDArray], NDArray]


def _odds(u: NDArray) -> NDArray:
    return 1 / (1 + np.exp(u))


FORMS = (
    Form(
        "hits",
        lambda u: np.exp(-np.exp(u)),
        lambda u: np.exp(u - np.exp(u)),
        lambda share: np.log(-np.log(share)),
    ),
    Form(
        "logistic",
        _odds,
        lambda u: _odds(u) * (1 - _odds(u)),
        lambda share: np.log(1 / share - 1),
    ),
)


def black(
    form: Form, x: NDArray, density_d: NDArray, sigma_d: NDArray, plateau_d: NDArray, base_d: NDArray
) -> tuple[NDArray, float]:
    """Parameters (B, 3) of the black near its threshold, and how badly the strip itself is fitted (χ²).

    x [stops], densities (B, n) [D], sigma (n,) [D]. Row 0 is the strip itself: it alone decides the weights,
    so that noise cannot choose its own.
    """
    span = np.maximum(plateau_d - base_d, 0.05)[:, None]
    variance = sigma_d**2 + 0.0015**2
    prior_weight = np.array([0, 0, 1 / 0.5**2])

    def fit(rows, start, short_d):
        def model(u):
            return plateau_d[rows, None] - span[rows] * form.share(u), span[rows] * form.slope(u)

        weight = np.tile(near(short_d, 0.05, 0.9) / variance, (len(start), 1))
        return _solve(start, x, density_d[rows], weight, np.zeros(3), prior_weight, model)

    def short(p):
        return span[0] * form.share(np.clip(_at(p, x)[0], -12, 8))

    short_d = plateau_d[0] - density_d[0]
    share = np.clip(short_d / span[0], 1e-3, 0.999)
    certain = form.slope(form.inner(share)) ** 2
    first = _line(x, form.inner(share)[None], (near(short_d, 0.05, 0.9) * certain)[None])
    for _ in range(2):
        first = fit(slice(0, 1), first, short_d)
        short_d = short(first)
    fitted = fit(slice(None), np.repeat(first, len(density_d), axis=0), short_d)
    left = (plateau_d[0] - short(fitted[:1]) - density_d[0]) ** 2 / variance
    return fitted, float((near(short(fitted[:1]), 0.05, 0.9) * left).sum())


def rise(x: NDArray, rises: NDArray, floor: float, relative: float, slope: float) -> NDArray:
    """Parameters (B, 3) of ln(rise) near 1, in units of the threshold: rises (B, n); row 0 is the strip.

    floor: uncertainty of a rise of nothing. relative: the share of a rise that blotches make uncertain.
    slope: what the rise is expected to do, in e-folds per stop; held loosely.
    """
    prior = np.array([0, slope, 0])
    prior_weight = np.array([1e-2, 1 / (0.6 * slope) ** 2, 1 / (0.15 * slope) ** 2])

    def fit(rows, start, guess):
        sigma = np.hypot(floor, relative * np.maximum(guess, 0.1))
        weight = np.tile(near(guess, 1.0, 1.4) / sigma**2, (len(start), 1))
        return _solve(start, x, rises[rows], weight, prior, prior_weight, _exponential)

    first = np.array([[0.0, slope, 0.0]])
    guess = rises[0]
    for _ in range(4):
        first = fit(slice(0, 1), first, guess)
        guess = np.exp(np.clip(_at(first, x)[0], -12, 6))
    return fit(slice(None), np.repeat(first, len(rises), axis=0), guess)


def _at(p: NDArray, x: NDArray) -> NDArray:
    return p[:, :1] + p[:, 1:2] * x + p[:, 2:] * x**2


def _exponential(inside: NDArray) -> tuple[NDArray, NDArray]:
    value = np.exp(np.clip(inside, -12, 8))
    return value, value


def near(value: NDArray, threshold: float, width: float) -> NDArray:
    """How much a point says about the threshold: falls with its distance in e-folds, on the far side only."""
    away = np.log(np.maximum(value, 1e-9) / threshold)
    far = np.maximum(0.0, away)
    return np.exp(-0.5 * (far / width) ** 2)


def _line(x: NDArray, y: NDArray, weight: NDArray) -> NDArray:
    total = weight.sum(axis=1)
    mean_x, mean_y = (weight * x).sum(axis=1) / total, (weight * y).sum(axis=1) / total
    spread = (weight * (x - mean_x[:, None]) ** 2).sum(axis=1)
    slope = (weight * (x - mean_x[:, None]) * (y - mean_y[:, None])).sum(axis=1) / np.maximum(spread, 1e-9)
    slope = np.clip(slope, 0.2, 3.0)
    return np.stack([mean_y - slope * mean_x, slope, np.zeros_like(slope)], axis=1)
