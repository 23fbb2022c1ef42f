"""Where the scale on the column begins: the two-height test.

Height in every formula is lens pupil to sheet in its tray, d. A scale reads h = d - x. Two exposures that
give one grey (or two meter readings) at h1 and h2 fix x, because √(t2/t1) = (h2 + x)/(h1 + x).
"""

import math
from dataclasses import dataclass

from footlight.errors import InputError
from footlight.light.uncertainty import LN2

_LEAST_LENS_TO_SHEET_MM = 50.0


@dataclass(frozen=True)
class Datum:
    """What to add to the scale [mm] to get lens pupil to sheet, and its standard uncertainty [mm]."""

    add_mm: float
    uncertainty_mm: float

    @property
    def summary(self) -> str:
        """`add 32 mm to the scale, ± 8 mm`."""
        word = "add" if self.add_mm >= 0 else "take"
        where = "to" if self.add_mm >= 0 else "from"
        return f"{word} {abs(self.add_mm):.0f} mm {where} the scale, ± {self.uncertainty_mm:.0f} mm"


def two_heights(
    low_mm: float,
    high_mm: float,
    light_ratio: float,
    *,
    ratio_stops: float = 0.05,
    reading_mm: float = 1.0,
) -> Datum:
    """The datum from two readings of the scale [mm] and how much more light there is at the lower one.

    light_ratio: illuminance low/high, or time high/low for one grey; with times, a departure from
    reciprocity comes in too, so prefer a meter, or bring both times together with the stop. ratio_stops:
    how well the ratio is known [stops, 1 sigma]. reading_mm: how well the scale is read [mm].

    Raises `InputError` where the heights or the ratio cannot be.
    """
    _plausible(low_mm, high_mm, light_ratio)
    k = math.sqrt(light_ratio)
    add_mm = (high_mm - k * low_mm) / (k - 1)
    if low_mm + add_mm < _LEAST_LENS_TO_SHEET_MM:
        raise InputError(
            f"two-height test: a ratio of {light_ratio:g} puts the lens only"
            f" {low_mm + add_mm:.0f} mm above the"
            " sheet; check both readings"
        )
    off_k = k * ratio_stops * LN2 / 2
    shares = (
        (high_mm - low_mm) / (k - 1) ** 2 * off_k,
        reading_mm / (k - 1),
        k * reading_mm / (k - 1),
    )
    return Datum(add_mm, math.hypot(*shares))


def _plausible(low_mm: float, high_mm: float, light_ratio: float) -> None:
    if not low_mm < high_mm:
        raise InputError(
            f"two-height test: the lower reading {low_mm:g} mm must be below the higher one {high_mm:g} mm"
        )
    if not 1.1 <= light_ratio < math.inf:
        raise InputError(
            f"two-height test: the light at the lower height is {light_ratio:.3g} times that at"
            " the higher one;"
            " at least 1.1 is needed, 4 is good (double the height)"
        )
