"""A scene as a meter saw it, and a print of it: places in exposure values, and how the camera was set."""

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace

from footlight.tones.exposures import Exposure, place_lx_s


@dataclass(frozen=True)
class Scene:
    """Places (name -> spot reading, EV at ISO 100), and a plan for them.

    set_ev: the reading that the exposure is for. mean_ev: of the whole scene; None for the mean of the
    places' light. flash: in the unit of the paper's flash.
    """

    name: str
    places: Mapping[str, float]
    index: float
    set_ev: float
    time_s: float
    mean_ev: float | None = None
    flash: float = 0.0

    def exposure(self, place: str) -> Exposure:
        """What a place gets by plan."""
        return Exposure(
            place_lx_s(self.index, self.places[place] - self.set_ev),
            place_lx_s(self.index, self._mean_ev - self.set_ev),
            self.time_s,
            self.flash,
        )

    @property
    def range_stops(self) -> float:
        """From the darkest place to the lightest."""
        return max(self.places.values()) - min(self.places.values())

    @property
    def _mean_ev(self) -> float:
        if self.mean_ev is not None:
            return self.mean_ev
        return math.log2(sum(2.0**ev for ev in self.places.values()) / len(self.places))

    def with_plan(self, more_stops: float, flash: float) -> "Scene":
        """The same scene under more camera light, through the lens's opening, and another flash."""
        return replace(self, index=self.index / 2.0**more_stops, flash=flash)
