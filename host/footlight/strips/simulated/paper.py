"""One simulated paper in one simulated process, and the truth about it."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from footlight.strips.simulated import curves, fields

ROWS = ("black", "grey", "white", "white2")
SATURATED_VEIL_D = 0.8


@dataclass(frozen=True)
class Paper:
    """All doses in stops from an arbitrary zero.

    middle_stops, steep: where and how steeply black comes. veil_stops: where the mean veil is 0.02 D; power:
    veil ∝ dose**power; cv, blotch_mm: unevenness of the halide left and radius of its blotches [mm].
    second_white: veil of 'white + 2 stops' as a share of that of 'just white'. stain_d: blue only [D].
    """

    family: str
    middle_stops: float = 0.0
    steep: float = 1.0
    base_d: float = 0.08
    dmax_d: float = 2.0
    grey_d: float = 0.7
    veil_stops: float = 5.0
    power: float = 1.2
    cv: float = 0.5
    blotch_mm: float = 1.2
    second_white: float = 0.5
    black_mottle_d: float = 0.004
    grain_d: float = 0.012
    stain_d: float = 0.0

    def black_d(self, stops: NDArray) -> NDArray:
        """Density [D] of unexposed paper after a second exposure [stops]; −inf: none."""
        share = curves.share(self.family, np.asarray(stops, float) - self.middle_stops, self.steep)
        return self.base_d + (self.dmax_d - self.base_d) * share

    def veil_d(self, stops: NDArray) -> NDArray:
        """Mean veil of 'just white' [D]."""
        rise = np.asarray(stops, float) - self.veil_stops
        return 0.02 * 2.0 ** (self.power * np.clip(rise, -60, 60))

    def plateau_d(self) -> float:
        """The fullest black [D]."""
        return float(self.black_d(self.middle_stops + np.linspace(-4, 14, 3601)).max())

    def full_stops(self, within_d: float = 0.05) -> float:
        """L: the first dose at which black is within `within_d` [D] of the plateau [stops]."""
        grid = self.middle_stops + np.linspace(-4, 14, 36001)
        return float(grid[np.argmax(self.black_d(grid) >= self.plateau_d() - within_d)])

    def clean_stops(self, veil_d: float = 0.02, mottle_limit_d: float = 0.010, side: int = 8) -> float:
        """U: the dose at which veil or mottle (over side × side tiles, tilt removed) comes first [stops]."""
        measured = fields.tile_cv(self.cv, self.blotch_mm, side)
        by_veil = np.log2(veil_d / 0.02)
        by_mottle = np.log2(mottle_limit_d / (0.02 * measured))
        return self.veil_stops + float(min(by_veil, by_mottle)) / self.power


def drawn(family: str, rng: np.random.Generator) -> Paper:
    """A paper of a family at random; the window between L and U is about −1 … 3.5 stops wide."""
    paper = Paper(
        family,
        steep=rng.uniform(0.85, 1.25),
        base_d=rng.uniform(0.05, 0.12),
        dmax_d=rng.uniform(1.7, 2.1),
        power=rng.uniform(0.9, 1.8),
        cv=rng.uniform(0.3, 1.0),
        blotch_mm=rng.uniform(0.7, 1.8),
        second_white=rng.uniform(0.3, 0.8),
        black_mottle_d=rng.uniform(0.002, 0.006),
        grain_d=rng.uniform(0.008, 0.016),
    )
    veil_stops = paper.full_stops() + rng.uniform(-1.0, 3.5)
    return Paper(**{**paper.__dict__, "veil_stops": veil_stops})
