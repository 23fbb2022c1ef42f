"""How much pre-flash: for a positive it shows as loss of black, and is worth it for the shadows it opens.

Two strips. The quick one (flash in steps, first developer, fix, no reversal) tells where paper begins to
see. The one that decides has one shadow scale, exposed in the camera across all flashes, and the full
reversal. What counts is common practice, no source; every limit is a setting.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from footlight.errors import InputError
from footlight.quantities import format_seconds

THRESHOLD_D = 0.04
MOST_LOSS_D = 0.08
LEAST_GAIN_D = 0.01
SPEED_DROP_D = 0.3


@dataclass(frozen=True)
class Step:
    """A step of the quick strip: flash [s] and density [D]."""

    flash_s: float
    density_d: float


def threshold(steps: Sequence[Step], above_d: float = THRESHOLD_D) -> Step:
    """The first step whose density is `above_d` [D] above the one without flash.

    Raises `InputError` where no step has no flash, or none is dark enough, or the very first one is.
    """
    ordered = sorted(steps, key=lambda step: step.flash_s)
    if len(ordered) < 3 or ordered[0].flash_s != 0:
        raise InputError(
            "pre-flash: give at least three steps, the first without flash, for example '0 s 0.05 D'"
        )
    base_d = ordered[0].density_d
    for place, step in enumerate(ordered[1:], start=1):
        if step.density_d - base_d >= above_d - 1e-9:
            if place == 1:
                raise InputError(
                    f"pre-flash: the smallest flash of {format_seconds(step.flash_s)} is seen"
                    " already; make a strip"
                    " with a smaller centre"
                )
            return step
    raise InputError(
        f"pre-flash: no step is {above_d:g} D above the one without flash; make a strip with more light"
    )


@dataclass(frozen=True)
class Trial:
    """A band of the strip that decides.

    flash_s: its flash [s]. black_d: density where the camera gave nothing [D]. darker_d, lighter_d: the two
    shadow tones that are to be told apart [D].
    """

    flash_s: float
    black_d: float
    darker_d: float
    lighter_d: float

    @property
    def separation_d(self) -> float:
        """How far apart the two tones are [D]."""
        return self.darker_d - self.lighter_d


@dataclass(frozen=True)
class Decision:
    """The flash chosen, what it costs in black [D], and what it gains in separation [D]."""

    chosen: Trial
    loss_d: float
    gain_d: float
    reason: str

    @property
    def summary(self) -> str:
        """One line."""
        return (
            f"flash {format_seconds(self.chosen.flash_s)}: loses {self.loss_d:.2f} D of black, gains"
            f" {self.gain_d:.2f} D between the two shadow tones; {self.reason}"
        )


def decide(
    trials: Sequence[Trial], most_loss_d: float = MOST_LOSS_D, least_gain_d: float = LEAST_GAIN_D
) -> Decision:
    """The largest flash that keeps the black within `most_loss_d` [D] and still gains separation.

    Goes up from no flash and stops at the first flash that costs too much black or separates the tones by
    less than `least_gain_d` [D] more than the flash before. Raises `InputError` without a band that had
    no flash. The band without flash is itself an answer: this paper needs none.
    """
    ordered = sorted(trials, key=lambda trial: trial.flash_s)
    if len(ordered) < 2 or ordered[0].flash_s != 0:
        raise InputError(
            "pre-flash: give the band without flash and at least one with, for example '0 s 2.05 D ...'"
        )
    plain = chosen = ordered[0]
    reason = "no larger flash was tried"
    for trial in ordered[1:]:
        if plain.black_d - trial.black_d > most_loss_d + 1e-9:
            reason = (
                f"{format_seconds(trial.flash_s)} would lose {plain.black_d - trial.black_d:.2f} D of black"
            )
            break
        if trial.separation_d - chosen.separation_d < least_gain_d - 1e-9:
            reason = f"{format_seconds(trial.flash_s)} separates the tones no further"
            break
        chosen = trial
    return Decision(chosen, plain.black_d - chosen.black_d, chosen.separation_d - plain.separation_d, reason)


@dataclass(frozen=True)
class Patch:
    """A patch of the shadow scale: camera exposure [stops] and density of the positive [D]."""

    stops: float
    density_d: float


def speed_gain_stops(plain: Sequence[Patch], flashed: Sequence[Patch], drop_d: float = SPEED_DROP_D) -> float:
    """How much less camera exposure the flashed paper needs [stops] for one and the same dark grey.

    The grey is `drop_d` [D] below the black of the unflashed scale; between patches, straight lines.
    Raises `InputError` where a scale does not reach it.
    """
    grey_d = max(patch.density_d for patch in plain) - drop_d
    return _exposure_for(plain, grey_d, "unflashed") - _exposure_for(flashed, grey_d, "flashed")


def _exposure_for(scale: Sequence[Patch], grey_d: float, name: str) -> float:
    """The exposure [stops] at which the scale first gets as light as `grey_d` [D]."""
    ordered = sorted(scale, key=lambda patch: patch.stops)
    for dark, light in zip(ordered, ordered[1:], strict=False):
        if dark.density_d >= grey_d > light.density_d:
            share = (dark.density_d - grey_d) / (dark.density_d - light.density_d)
            return dark.stops + share * (light.stops - dark.stops)
    raise InputError(
        f"pre-flash: the {name} scale does not pass {grey_d:.2f} D; read patches on both sides of"
        " it, in stops and D"
    )


def flash_dose_ratio(flash_s: float, threshold_s: float) -> float:
    """The flash against the threshold [stops]."""
    if min(flash_s, threshold_s) <= 0:
        raise InputError("pre-flash: flash and threshold must be more than zero, for example '2 s'")
    return math.log2(flash_s / threshold_s)
