"""Pre-flash by the curve: its weight from flashes alone, its threshold, and what it costs and gains."""

import math
from collections.abc import Sequence

from footlight.errors import InputError
from footlight.light.preflash import THRESHOLD_D, Trial
from footlight.tones.curve import Curve
from footlight.tones.exposures import Exposure
from footlight.tones.learning import Knowledge

# Of a flash as given, and as read [stops], [D]: common practice, no source.
_GIVEN_SD_STOPS, _READ_SD_D = 0.05, 0.012
_FLAT = 0.02  # [D/stop]: below it a density tells nothing of its exposure


def share_of(curve: Curve, alone: Sequence[tuple[float, float]]) -> tuple[float, float]:
    """Camera light that does what one unit of flash does [lx s], and its doubt [stops].

    alone: (flash [its unit], density of a reversed sheet that got nothing else [D]). Each is weighed by what
    its place on the curve tells. Raises InputError for a density that the curve has not, or where all are
    flat.
    """
    found = []
    for amount, density_d in alone:
        stops = curve.stops_for(density_d)
        slope = -curve.slope(stops)
        if slope > _FLAT:
            found.append((stops - math.log2(amount), math.hypot(_GIVEN_SD_STOPS, _READ_SD_D / slope)))
    if not found:
        raise InputError(
            "tones: no flash alone is beyond black and short of white; give one whose density lies on the"
            " slope"
        )
    total = sum(sd**-2 for _, sd in found)
    mean = sum(stops * sd**-2 for stops, sd in found) / total
    apart = max(abs(stops - mean) for stops, _ in found)
    return 2.0**mean, max(total**-0.5, apart / 2)


def black_d(known: Knowledge, flash: float = 0.0) -> float:
    """What a place becomes that gets flash and no camera light at all [D]."""
    return known.density_d(Exposure(0.0, 0.0, known.weights.reference_s, flash))


def threshold(known: Knowledge, loss_d: float = THRESHOLD_D) -> float:
    """The flash that takes `loss_d` [D] from the fullest black [unit of its share]."""
    least, most = 0.0, 2.0 ** known.curve.line.places[-1] / known.weights.flash_share
    wanted = black_d(known) - loss_d
    for _ in range(50):
        middle = (least + most) / 2
        least, most = (middle, most) if black_d(known, middle) > wanted else (least, middle)
    return (least + most) / 2


def trial(known: Knowledge, darker: Exposure, lighter: Exposure, flash: float) -> Trial:
    """What `flash decide` reads from a strip's band, predicted: black, and two shadow tones."""
    shadows = (
        known.density_d(Exposure(tone.own_lx_s, tone.mean_lx_s, tone.time_s, flash))
        for tone in (darker, lighter)
    )
    return Trial(flash, black_d(known, flash), *shadows)
