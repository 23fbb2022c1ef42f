"""What was measured in one cell: a step within a band."""

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from footlight.strips.measure import mottle

WHITE_BANDS = ("white", "white2")
_CLIPPED_SHARE = 0.02


@dataclass(frozen=True)
class Cell:
    """One step of one band.

    tiles_d: tile means [D], NaN where masked. variances: within the tiles [D²]. channels_d: mean of each
    channel [D], one for grey. drops: drop marks and dust that were masked. clipped: share of pixels at
    either end of the scale. plain_share: what was left after masking.
    """

    band: str
    step: int
    tiles_d: NDArray
    variances: NDArray
    channels_d: tuple[float, ...]
    drops: int = 0
    clipped: float = 0.0
    measured: mottle.Mottle = field(init=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "measured", mottle.of_tiles(self.tiles_d, self.variances))

    @property
    def density_d(self) -> float:
        """Mean [D]."""
        return float(np.nanmean(self.tiles_d))

    @property
    def is_clipped(self) -> bool:
        """Has the scanner cut off more than a stray pixel at an end of its scale?"""
        return self.clipped > _CLIPPED_SHARE

    @property
    def plain_share(self) -> float:
        """The share of tiles that is plain enough to measure."""
        return float(np.isfinite(self.tiles_d).mean())
