"""A paper's positive curve: density after reversal against the exposure of the paper, with its doubt.

From one sheet with steps. R and P are those of ISO 6846 (from memory: R = 100 times the difference of log
exposure between 0.90 of the maximum net density and 0.04 above base and fog; P = 1000 / H at 0.60 above
base). The standard speaks of a negative-working paper in its own developer; after reversal the curve runs
the other way and base, black and slope are those of two developments and a bleach: numbers to compare one's
own papers by.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from footlight.errors import InputError
from footlight.tones.exposures import Exposure, Weights, parts
from footlight.tones.monotone import Cubics, cubics, falling

# Common doubts, no source: of one step's light [stops] besides that of all, and of a reading's scale.
STEP_SD_STOPS = 0.015
# Over how many stops the slope dies away past the last step.
TAIL_STOPS = 0.7
LEAST_STEPS, LEAST_SCALE_D = 5, 0.3
# Steps that rise against light by so many deviations are no reading error.
MOST_RISE_SD = 4.0
_LIGHT_D, _DARK_SHARE, _SPEED_D = 0.04, 0.90, 0.60


@dataclass(frozen=True)
class Step:
    """A step of a sheet: own exposure without flare and flash [lx s]; density and its deviation [D]."""

    lx_s: float
    density_d: float
    sd_d: float = 0.012


@dataclass(frozen=True)
class Sheet:
    """A reversed sheet with steps: its mean exposure [lx s], time [s], flash [unit of its share].

    light_sd_stops: doubt of all steps together. flare_share: of its mean, over all steps.
    """

    steps: tuple[Step, ...]
    time_s: float
    mean_lx_s: float
    flare_share: float
    flash: float = 0.0
    light_sd_stops: float = 0.03


@dataclass(frozen=True)
class Iso:
    """Range R and speed P of ISO 6846; None where the steps do not reach the densities they are read at."""

    range_r: float | None
    speed_p: float | None


@dataclass(frozen=True)
class Curve:
    """Density [D] against exposure [stops from 1 lx s], through the steps of one sheet.

    sds_d: doubt of each point by its reading and its own light [D]; what shifts all is not in it.
    """

    line: Cubics
    sds_d: tuple[float, ...]

    @property
    def black_d(self) -> float:
        """The fullest black that was measured [D]."""
        return self.line.values[0]

    @property
    def white_d(self) -> float:
        """The palest tone that was measured [D]."""
        return self.line.values[-1]

    @property
    def middle_stops(self) -> float:
        """The exposure that gives the middle density [stops]."""
        return self.stops_for((self.black_d + self.white_d) / 2)

    def at(self, stops: float) -> float:
        """Density [D]; past the steps as far as the last slope carries, to be told as beyond."""
        return self.line.at(stops)

    def is_beyond(self, stops: float) -> bool:
        """Whether the exposure lies outside the measured steps."""
        return not self.line.places[0] - 1e-9 <= stops <= self.line.places[-1] + 1e-9

    def slope(self, stops: float, reach: float = 0.1) -> float:
        """Density per stop about a place [D/stop], not above 0."""
        return (self.at(stops + reach) - self.at(stops - reach)) / (2 * reach)

    def stops_for(self, density_d: float) -> float:
        """The exposure for a density [stops]; InputError where no step is as dark or as light."""
        places, values = self.line.places, self.line.values
        if not values[-1] <= density_d <= values[0]:
            raise InputError(
                f"tones: {density_d:.2f} D was not measured; the steps go from {values[-1]:.2f} D to"
                f" {values[0]:.2f} D"
            )
        low, high = places[0], places[-1]
        for _ in range(50):
            middle = (low + high) / 2
            low, high = (middle, high) if self.at(middle) > density_d else (low, middle)
        return (low + high) / 2

    def iso(self) -> Iso:
        """R and P, where the steps reach them."""
        net_d = self.black_d - self.white_d
        light = self._log_lx_s(self.white_d + _LIGHT_D)
        dark = self._log_lx_s(self.white_d + _DARK_SHARE * net_d)
        speed = self._log_lx_s(self.white_d + _SPEED_D)
        return Iso(
            100 * (light - dark) if light is not None and dark is not None else None,
            1000 / 10**speed if speed is not None else None,
        )

    def _log_lx_s(self, density_d: float) -> float | None:
        """Log exposure of a density, where a step lies on either side of it."""
        if not self.white_d < density_d < self.black_d:
            return None
        return self.stops_for(density_d) * math.log10(2)


def sheet_weights(sheet: Sheet, weights: Weights) -> Weights:
    """The weights under which a sheet's steps are exposures of the paper."""
    return Weights(sheet.flare_share, weights.flash_share, weights.p, weights.reference_s, weights.flash_s)


def curve_of(sheet: Sheet, weights: Weights) -> Curve:
    """The curve of a sheet. `weights.reference_s` is to be the sheet's time.

    Raises InputError for too few steps, no scale, or densities that do not fall with light.
    """
    steps = sorted(sheet.steps, key=lambda step: step.lx_s)
    _check(steps)
    own = sheet_weights(sheet, weights)
    places = [
        parts(Exposure(step.lx_s, sheet.mean_lx_s, sheet.time_s, sheet.flash), own).stops for step in steps
    ]
    values = falling([step.density_d for step in steps], [step.sd_d**-2 for step in steps])
    line = cubics(places, values, TAIL_STOPS)
    rough = Curve(line, ())
    sds = (
        math.hypot(step.sd_d, STEP_SD_STOPS * rough.slope(at)) for step, at in zip(steps, places, strict=True)
    )
    return Curve(line, tuple(sds))


def _check(steps: Sequence[Step]) -> None:
    if len(steps) < LEAST_STEPS:
        raise InputError(f"tones: {len(steps)} steps are no curve; give at least {LEAST_STEPS}")
    for dark, light in zip(steps, steps[1:], strict=False):
        if light.lx_s <= dark.lx_s * 1.001:
            raise InputError(f"tones: two steps have {light.lx_s:.4g} lx s; give each exposure once")
        allowed = MOST_RISE_SD * math.hypot(dark.sd_d, light.sd_d)
        if light.density_d - dark.density_d > allowed:
            raise InputError(
                f"tones: {light.lx_s:.4g} lx s has {light.density_d:.2f} D, and less light"
                f" ({dark.lx_s:.4g} lx s) {dark.density_d:.2f} D; a positive gets lighter with light: is it a"
                " negative, or are two steps exchanged?"
            )
    if steps[0].density_d - steps[-1].density_d < LEAST_SCALE_D:
        raise InputError(
            f"tones: from the least to the most light the density falls by less than {LEAST_SCALE_D} D; is"
            " it a negative, or another sheet?"
        )
