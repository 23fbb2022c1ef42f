"""For a wanted tone: how the camera is to be set, and how sure that is."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from footlight.errors import InputError
from footlight.tones.exposures import Exposure
from footlight.tones.flash import black_d
from footlight.tones.learning import Knowledge, Tone
from footlight.tones.scene import Scene

# As far as advice ever goes [stops], and how finely.
_MOST_STOPS, _HALVINGS = 12.0, 50
# A wanted tone counts as met within so much [D]: common practice, no source.
HELD_D = 0.10


@dataclass(frozen=True)
class Change:
    """More camera light [stops], its 90 % doubt either way [stops], and the tone that comes of it."""

    stops: float
    off_stops: float
    tone: Tone


def stops_for(known: Knowledge, exposure: Exposure, density_d: float) -> Change:
    """The change of the whole scene's exposure that gives a place a density, the flash as it is.

    Raises InputError where the paper with this flash has no such tone.
    """
    most_d, least_d = (known.density_d(exposure.moved(end)) for end in (-_MOST_STOPS, _MOST_STOPS))
    if not least_d < density_d < most_d:
        raise InputError(
            f"tones: {density_d:.2f} D cannot be had; with this flash the paper goes from {least_d:.2f} D"
            f" to {most_d:.2f} D, as far as it was measured"
        )
    low, high = -_MOST_STOPS, _MOST_STOPS
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        darker = known.density_d(exposure.moved(middle)) > density_d
        low, high = (middle, high) if darker else (low, middle)
    tone = known.tone(exposure.moved(low))
    return Change(low, _off_stops(known, exposure.moved(low), tone), tone)


def _off_stops(known: Knowledge, exposure: Exposure, tone: Tone) -> float:
    """The band in densities over the slope [stops]."""
    reach = 0.1
    dark, light = (known.density_d(exposure.moved(way)) for way in (-reach, reach))
    slope = (dark - light) / (2 * reach)
    return math.inf if slope < 1e-3 else (tone.high_d - tone.low_d) / 2 / slope


@dataclass(frozen=True)
class Setting:
    """A way to set the camera for wanted tones.

    stops: more camera light than planned, off_stops: its 90 % doubt by the surest tone. index: what it makes.
    time_s: the camera's time at the same opening, long exposures counted [s]. flash: in its unit.
    loss_d: black that the flash costs [D]. tones: of the wanted places. miss_d: the farthest of them from its
    wish [D].
    """

    stops: float
    index: float
    time_s: float
    flash: float
    loss_d: float
    tones: dict[str, Tone]
    miss_d: float
    off_stops: float

    @property
    def is_held(self) -> bool:
        """Whether every wanted tone is met as nearly as a printer asks."""
        return self.miss_d <= HELD_D


def settings_for(
    known: Knowledge, scene: Scene, wanted: Mapping[str, float], flashes: Sequence[float]
) -> list[Setting]:
    """For each flash the exposure that comes nearest to all wanted tones (place -> density [D]).

    Nearest: the least greatest miss, looked for by hundredths of a stop.
    """
    return [_setting(known, scene, wanted, flash) for flash in flashes]


def _setting(known: Knowledge, scene: Scene, wanted: Mapping[str, float], flash: float) -> Setting:
    plan = scene.with_plan(0.0, flash)
    places = [(plan.exposure(name), density_d) for name, density_d in wanted.items()]

    def miss(stops: float) -> float:
        return max(abs(known.density_d(place.moved(stops)) - density_d) for place, density_d in places)

    rough = min((step / 4 for step in range(-32, 33)), key=miss)
    stops = min((rough + step / 100 for step in range(-25, 26)), key=miss)
    time_s = scene.time_s * 2.0 ** (stops / known.weights.p)
    tones = {name: known.tone(plan.exposure(name).moved(stops)) for name in wanted}
    loss_d = black_d(known) - black_d(known, flash)
    off_stops = min(_off_stops(known, plan.exposure(name).moved(stops), tone) for name, tone in tones.items())
    return Setting(stops, scene.index / 2.0**stops, time_s, flash, loss_d, tones, miss(stops), off_stops)


def best(settings: Sequence[Setting]) -> Setting:
    """The smallest flash that holds all wanted tones, else the setting that misses least."""
    held = [setting for setting in settings if setting.is_held]
    return (
        min(held, key=lambda setting: setting.flash) if held else min(settings, key=lambda each: each.miss_d)
    )
