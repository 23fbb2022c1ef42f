"""Exposures that add: camera, flare and pre-flash, each with its weight, as one exposure of the paper.

Light adds before the paper answers, so the sum is taken in lux-seconds and never in density. Additivity is
exact for light of one colour and time; weights carry colour, and Schwarzschild's power carries time
(camera.md).
"""

import math
from dataclasses import dataclass

# What a place gets that the meter was set for: 0.65 x 12.5 / index [lx s]. ISO 2721 and ISO 2720, from
# memory.
PLACE_LX_S = 8.125


@dataclass(frozen=True)
class Weights:
    """What acts how strongly, against the camera's own light at `reference_s`.

    flare_share: of the mean of the scene, over everything. flash_share: camera light [lx s] that does what
    one unit of flash does; the unit is whatever flashes are counted in, seconds of one lamp or lux-seconds.
    p: exponent of long exposures. reference_s: time for which the curve holds [s]. flash_s: time of the
    flash [s]; None where its share was found at about its own time.
    """

    flare_share: float = 0.0
    flash_share: float = 0.0
    p: float = 1.0
    reference_s: float = 1.0
    flash_s: float | None = None

    def long(self, time_s: float) -> float:
        """How light of that time acts against light of the reference time (times t to the p - 1)."""
        return (time_s / self.reference_s) ** (self.p - 1)


@dataclass(frozen=True)
class Exposure:
    """A place's own light and its scene's mean [lx s], the camera's time [s], the flash [unit of its
    share].
    """

    own_lx_s: float
    mean_lx_s: float
    time_s: float
    flash: float = 0.0

    def moved(self, stops: float) -> "Exposure":
        """The same place under more camera light [stops], the flash as it is."""
        more = 2.0**stops
        return Exposure(self.own_lx_s * more, self.mean_lx_s * more, self.time_s, self.flash)


@dataclass(frozen=True)
class Parts:
    """What reaches the paper, as camera light of the reference time [lx s]."""

    camera_lx_s: float
    flare_lx_s: float
    flash_lx_s: float

    @property
    def stops(self) -> float:
        """All together, in stops from one lux-second; a millionth of it where there is none at all."""
        return math.log2(max(self.camera_lx_s + self.flare_lx_s + self.flash_lx_s, 1e-6))


def parts(exposure: Exposure, weights: Weights) -> Parts:
    """An exposure taken apart."""
    long = weights.long(exposure.time_s)
    flash_long = 1.0 if weights.flash_s is None else weights.long(weights.flash_s)
    return Parts(
        exposure.own_lx_s * long,
        weights.flare_share * exposure.mean_lx_s * long,
        weights.flash_share * exposure.flash * flash_long,
    )


def place_lx_s(index: float, above_set_ev: float) -> float:
    """What a place gets by plan [lx s]: `above_set_ev` [stops] above the reading that the meter was set
    for.
    """
    return PLACE_LX_S / index * 2.0**above_set_ev
