"""The safelight fog test, twice for a reversal: before the first developer, and after the bleach.

Before first development fog shows as lost black, after the bleach (with no second exposure) as veil.
Bands wait under the safelight from 0 to 20 minutes; a pre-exposure to grey, given to one half before the
wait and to the other half after it, makes the paper as sensitive as it is in use (published fog-test
bulletins do so for negative work; the split in two tests is for the reversal).
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from footlight.errors import InputError
from footlight.light.setup import LightSetup
from footlight.quantities import format_duration

Stage = Literal["before first developer", "after the bleach"]

WAITS_MIN = (1.0, 2.0, 4.0, 8.0, 20.0)


@dataclass(frozen=True)
class Wait:
    """One stretch of time under the safelight [s], and where the card stands for it [mm]."""

    number: int
    seconds: float
    mark_mm: float

    @property
    def duration_ms(self) -> int:
        """The same [ms]."""
        return round(self.seconds * 1000)


@dataclass(frozen=True)
class FogTest:
    """stage: when in the process. totals_s: time of each band under the safelight [s], the first is 0.

    pre_exposure_s: exposure to grey [s] with `setup`, None after the bleach, where there is none.
    """

    stage: Stage
    setup: LightSetup
    totals_s: tuple[float, ...]
    waits: tuple[Wait, ...]
    pre_exposure_s: float | None
    length_mm: float

    @property
    def shows_as(self) -> str:
        """What fog looks like at this stage."""
        return "lost black" if self.stage == "before first developer" else "veil in the whites"

    @property
    def minutes(self) -> float:
        """How long the whole wait takes [min]."""
        return sum(wait.seconds for wait in self.waits) / 60

    def as_dict(self) -> dict[str, object]:
        """For `--json`."""
        return {
            "stage": self.stage,
            "shows_as": self.shows_as,
            "bands_s": list(self.totals_s),
            "pre_exposure_s": self.pre_exposure_s,
            "waits": [
                {"number": wait.number, "seconds": wait.seconds, "mark_mm": round(wait.mark_mm, 1)}
                for wait in self.waits
            ],
        }


def fog_test(
    stage: Stage,
    setup: LightSetup,
    length_mm: float,
    *,
    pre_exposure_s: float | None = None,
    waits_min: Sequence[float] = WAITS_MIN,
) -> FogTest:
    """The test for one stage; `waits_min` [min] are the times of the bands behind the zero band, rising.

    Raises `InputError` where they do not rise, and for a pre-exposure missing before the first developer
    or given after the bleach.
    """
    totals_s = [0.0, *(60 * minutes for minutes in waits_min)]
    steps_s = [b - a for a, b in zip(totals_s, totals_s[1:], strict=False)]
    if len(totals_s) < 3 or min(steps_s) < 10:
        raise InputError(
            "fog test: give at least two rising times, 10 s or more apart, for example '1 min 4 min 20 min'"
        )
    if (stage == "before first developer") != (pre_exposure_s is not None):
        raise InputError(
            "fog test: before the first developer a pre-exposure to mid-grey is needed, for example '2 s';"
            " after the bleach there is none"
        )
    width_mm = length_mm / len(totals_s)
    waits = [Wait(place, seconds, place * width_mm) for place, seconds in enumerate(steps_s, start=1)]
    return FogTest(stage, setup, tuple(totals_s), tuple(waits), pre_exposure_s, length_mm)


@dataclass(frozen=True)
class FogVerdict:
    """safe_s: the longest wait without a change [s]. fogged_s: the first with one [s], None if none had."""

    safe_s: float
    fogged_s: float | None

    @property
    def summary(self) -> str:
        """`safe for 4:00; fog at 8:00`."""
        safe = f"safe for {format_duration(round(self.safe_s * 1000))}"
        if self.fogged_s is None:
            return f"{safe}, the longest tried"
        return f"{safe}; fog at {format_duration(round(self.fogged_s * 1000))}"


def verdict(totals_s: Sequence[float], densities_d: Sequence[float], change_d: float = 0.02) -> FogVerdict:
    """How long the safelight is safe, from the density [D] of each band; the first band is the one without.

    change_d: what counts as a change, in either direction [D] (0.02: what a scan can tell).
    """
    if len(totals_s) != len(densities_d) or len(totals_s) < 2:
        raise InputError(
            f"fog test: {len(densities_d)} densities for {len(totals_s)} bands; give one for each band"
        )
    safe_s = totals_s[0]
    for total_s, density_d in zip(totals_s, densities_d, strict=True):
        if abs(density_d - densities_d[0]) >= change_d:
            return FogVerdict(safe_s, total_s)
        safe_s = total_s
    return FogVerdict(safe_s, None)
