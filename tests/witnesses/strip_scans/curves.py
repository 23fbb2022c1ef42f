"""Curves of invented papers: six families, with what black and white do known by construction.

A curve is a function of stops, log2 of the dose, about an origin of its own; the paper moves it to where it
belongs. None of the forms is from a handbook: they are what two emulsions mixed, an induction threshold or a
lingering shoulder would give, and are meant to be unlike the smooth forms that one would fit.
"""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

Stops = np.ndarray
Shape = Callable[[Stops], np.ndarray]
FAMILIES = ("kinked", "threshold", "sloping", "asymmetric", "two layers", "sagging")
VEILS = ("power", "threshold", "ramp")
# The rule of docs/reading-strips.md, What is computed [D].
FULL_WITHIN_D = 0.05
VEIL_D = 0.02
MOTTLE_D = 0.010


def soft(stops: Stops, width_stops: float) -> np.ndarray:
    """0 below zero, rising by 1 a stop above it, the corner rounded over the width [stop]."""
    return width_stops * np.logaddexp(0, stops / width_stops)


def kinked(rng: np.random.Generator) -> Shape:
    """Two straight pieces of different slope: a fast and a slow emulsion, each of even grains."""
    knee = rng.uniform(0.8, 2.4)
    end = knee + rng.uniform(0.7, 2.0)
    height = rng.uniform(0.3, 0.75)
    width = rng.uniform(0.05, 0.16)
    first, second = height / knee, (1 - height) / (end - knee)

    def shape(stops: Stops) -> np.ndarray:
        rises = first * soft(stops, width) + (second - first) * soft(stops - knee, width)
        return rises - second * soft(stops - end, width)

    return shape


def threshold(rng: np.random.Generator) -> Shape:
    """Nothing at all below a dose, then a steep rise: what is below it is lost, as by an induction period."""
    lost = rng.uniform(0.15, 0.6)
    power = rng.uniform(0.8, 1.7)
    return lambda stops: 1 - np.exp(-(np.clip(2.0**stops - lost, 0, None) ** power))


def sloping(rng: np.random.Generator) -> Shape:
    """A shoulder that never ends: an algebraic tail, and a rise of a hundredth a stop after it.

    Where black is full it still gains some 0.05 D a stop: flatter ones put a tenth of a stop below what any
    scan can tell (0.0025 D), and would judge nothing.
    """
    width = rng.uniform(0.6, 1.1)
    slope = rng.uniform(0.001, 0.006)
    knee = rng.uniform(1.0, 2.0)

    def shape(stops: Stops) -> np.ndarray:
        steep = stops / width
        return 0.5 * (1 + steep / np.cbrt(1 + np.abs(steep) ** 3)) + slope * soft(stops - knee, 0.2)

    return shape


def asymmetric(rng: np.random.Generator) -> Shape:
    """Long toe and hard shoulder, or hard toe and long shoulder: Richards' form far from the middle."""
    skew = float(rng.choice([rng.uniform(0.05, 0.3), rng.uniform(3.0, 7.0)]))
    width = rng.uniform(0.4, 0.8) if skew < 1 else rng.uniform(0.2, 0.4)
    return lambda stops: np.exp(-np.logaddexp(0, np.log(skew) - stops / width) / skew)


def two_layers(rng: np.random.Generator) -> Shape:
    """Two sensitivities with a shelf between them, as of a multigrade paper under one light."""
    share = rng.uniform(0.35, 0.8)
    apart = rng.uniform(1.5, 2.8)
    power = rng.uniform(1.8, 3.0)

    def layer(stops: Stops) -> np.ndarray:
        return 1 - (1 + 2.0 ** (power * stops)) ** -1.5

    return lambda stops: share * layer(stops) + (1 - share) * layer(stops - apart)


def sagging(rng: np.random.Generator) -> Shape:
    """An asymmetric one whose black turns back where there is far too much light."""
    rise = asymmetric(rng)
    from_stops = rng.uniform(2.5, 4.0)
    slope = rng.uniform(0.01, 0.04)
    return lambda stops: rise(stops) * (1 - np.minimum(slope * soft(stops - from_stops, 0.4), 0.3))


SHAPES: dict[str, Callable[[np.random.Generator], Shape]] = dict(
    zip(FAMILIES, (kinked, threshold, sloping, asymmetric, two_layers, sagging), strict=True)
)


def veil_shape(kind: str, rng: np.random.Generator) -> Shape:
    """Veil of the cleared whites [D] about an origin of its own: what the bleach left develops."""
    most = rng.uniform(0.15, 0.5)
    if kind == "power":
        power = rng.uniform(0.8, 2.2)
        return lambda stops: most * (1 - np.exp(-(2.0 ** (power * stops))))
    if kind == "threshold":
        lost = rng.uniform(0.3, 0.8)
        gain = rng.uniform(0.01, 0.05)
        return lambda stops: most * (1 - np.exp(-gain / most * np.clip(2.0**stops - lost, 0, None)))
    slope = rng.uniform(0.02, 0.08)
    return lambda stops: most * (1 - np.exp(-slope / most * soft(stops, 0.15)))


def first_at(curve: Shape, level: float, low: float, high: float) -> float:
    """Where a curve first comes to a level within low to high [stop]; inf where it never does."""
    grid = np.linspace(low, high, 4001)
    above = np.flatnonzero(curve(grid) >= level)
    if not len(above):
        return float("inf")
    if not above[0]:
        return low
    ends = np.linspace(grid[above[0] - 1], grid[above[0]], 257)
    return float(ends[np.flatnonzero(curve(ends) >= level)[0]])


@dataclass(frozen=True)
class Black:
    """A paper's positive under second exposure: density above base [D] at a dose [stop about the centre]."""

    shape: Shape
    origin_stops: float
    height_d: float

    def density_d(self, stops: Stops) -> np.ndarray:
        return self.height_d * self.shape(np.asarray(stops, float) - self.origin_stops)

    def full_stops(self, steps_stops: np.ndarray) -> float:
        """L: where it is within 0.05 D of the fullest black among the steps, anchor included [stop]."""
        fullest = float(self.density_d(steps_stops).max())
        return first_at(self.density_d, fullest - FULL_WITHIN_D, -9.0, 9.0)


@dataclass(frozen=True)
class White:
    """A cleared band: veil [D], and mottle as a share of it in tiles of the page's definition."""

    shape: Shape
    origin_stops: float
    tile_share: float

    def veil_d(self, stops: Stops | float) -> np.ndarray:
        return self.shape(np.asarray(stops, float) - self.origin_stops)

    def limit_d(self) -> float:
        """The veil at which one of the page's two limits is reached [D]."""
        return min(VEIL_D, MOTTLE_D / self.tile_share)

    def clean_stops(self) -> float:
        """U: where veil is 0.02 D, or mottle beyond the zero step's 0.010 D, whichever is first [stop]."""
        return first_at(self.veil_d, self.limit_d(), -14.0, 14.0)


def black_full_at(shape: Shape, full_stops: float, height_d: float) -> Black:
    """A black of that height that is full near a dose [stop]; the exact place is asked of it afterwards."""
    plain = Black(shape, 0.0, height_d)
    return Black(shape, full_stops - plain.full_stops(np.linspace(-4, 5, 181)), height_d)


def white_clean_to(shape: Shape, clean_stops: float, tile_share: float) -> White:
    """A white whose first limit is reached at a dose [stop]."""
    plain = White(shape, 0.0, tile_share)
    return White(shape, clean_stops - plain.clean_stops(), tile_share)
