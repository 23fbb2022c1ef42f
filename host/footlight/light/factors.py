"""What each change of arrangement does to the time: one factor a change, with its doubt.

Laws: illuminance from a lens ∝ (f/N)²/d² with d from the pupil (image-side luminance is conserved);
from a bare disc of radius r, E = πLr²/(r² + d²) (exact on axis); through density D, × 10**-D.
What did not change has no factor and no doubt: it cancels.
"""

import math
from collections.abc import Iterator
from typing import NamedTuple

from footlight.errors import InputError
from footlight.light.setup import Arrangement
from footlight.light.sources import disc_against_point
from footlight.light.tolerances import Tolerances
from footlight.light.uncertainty import Term, power_stops
from footlight.quantities import FStop, format_stop

STOPS_PER_DENSITY = math.log2(10.0)


class Factor(NamedTuple):
    """One change: its arithmetic as text, what it does to the time [stops], and its causes of doubt."""

    text: str
    stops: float
    terms: tuple[Term, ...]

    @property
    def times(self) -> float:
        """The factor on the time."""
        return 2.0**self.stops

    def __str__(self) -> str:
        return f"{self.text} = × {self.times:.4g} ({self.stops:+.2f} stop)"


def factors(
    at: Arrangement, to: Arrangement, tolerances: Tolerances, bridge_stops: float | None
) -> list[Factor]:
    """Every factor between two arrangements, in the order in which a printer would name them."""
    return [
        *_bridge(at, to, tolerances, bridge_stops),
        *_lens(at, to, tolerances),
        *_stop(at, to, tolerances),
        *_height(at, to, tolerances),
        *_neutral_density(at, to, tolerances),
    ]


def _bridge(
    at: Arrangement, to: Arrangement, tolerances: Tolerances, stops: float | None
) -> Iterator[Factor]:
    """Lamps, filters, and lens against no lens: only a strip on the paper itself can tell."""
    changed = _colour_changes(at, to)
    if not changed:
        return
    if stops is None:
        raise InputError(
            f"{' and '.join(changed)}: paper sees the two differently and no figure carries over; "
            "make a bridging strip (the same paper under both, matched) and give its difference in stops"
        )
    doubt = Term("the bridging strip", f"± {tolerances.bridge_stops:.2f} stop", tolerances.bridge_stops)
    yield Factor(f"bridging strip, {' and '.join(changed)}", stops, (doubt,))


def _colour_changes(at: Arrangement, to: Arrangement) -> list[str]:
    changed = []
    if at.lamp != to.lamp:
        changed.append(f"lamp '{at.lamp}' → '{to.lamp}'")
    if at.filter != to.filter:
        changed.append(f"filter {_or_none(at.filter)} → {_or_none(to.filter)}")
    if (at.lens is None) != (to.lens is None):
        changed.append(f"lens {_or_none(at.lens)} → {_or_none(to.lens)}")
    return changed


def _or_none(name: str | None) -> str:
    return f"'{name}'" if name else "none"


def _lens(at: Arrangement, to: Arrangement, tolerances: Tolerances) -> Iterator[Factor]:
    if at.lens == to.lens or at.lens is None or to.lens is None:
        return
    if at.focal_mm is None or to.focal_mm is None:
        raise InputError(
            f"lens '{at.lens}' → '{to.lens}': give the focal length of both, for example '80 mm'"
        )
    doubt = Term(
        "the lens swap", f"± {tolerances.lens_stops:.2g} stop until calibrated", tolerances.lens_stops
    )
    stops = 2 * math.log2(at.focal_mm / to.focal_mm)
    yield Factor(
        f"focal length {at.focal_mm:g} → {to.focal_mm:g} mm: ({at.focal_mm:g}/{to.focal_mm:g})²",
        stops,
        (doubt,),
    )


def _stop(at: Arrangement, to: Arrangement, tolerances: Tolerances) -> Iterator[Factor]:
    if at.stop is None or to.stop is None or at.stop == to.stop:
        return
    doubt = Term("the stop", f"± {tolerances.stop_stops:.2f} stop each", tolerances.stop_stops)
    text = f"stop {format_stop(at.stop)} → {format_stop(to.stop)}: {_squared(at.stop, to.stop)}"
    yield Factor(text, at.stop.stops_to(to.stop), (doubt, doubt))


def _squared(at: FStop, to: FStop) -> str:
    return f"({to.exact_value:.5g}/{at.exact_value:.5g})²"


def _height(at: Arrangement, to: Arrangement, tolerances: Tolerances) -> Iterator[Factor]:
    if at.height_mm == to.height_mm:
        return
    ends = f"{at.height_mm:.0f} → {to.height_mm:.0f} mm"
    if to.lens is None and to.source_mm and at.source_mm == to.source_mm:
        r_mm = to.source_mm / 2
        exponents = [2 * disc_against_point(end.height_mm, end.source_mm) for end in (at, to)]
        ratio = (r_mm**2 + to.height_mm**2) / (r_mm**2 + at.height_mm**2)
        sums = f"(r² + {to.height_mm:.0f}²)/(r² + {at.height_mm:.0f}²)"
        text = f"height {ends} under a disc of {to.source_mm:g} mm: {sums}"
    else:
        exponents = [2.0, 2.0]
        ratio = (to.height_mm / at.height_mm) ** 2
        text = f"height {ends}: ({to.height_mm:.0f}/{at.height_mm:.0f})²"
    yield Factor(text, math.log2(ratio), _height_doubts(at, to, exponents, tolerances))


def _height_doubts(
    at: Arrangement, to: Arrangement, exponents: list[float], tolerances: Tolerances
) -> tuple[Term, ...]:
    """One scale, one lens: where the scale begins is one error, which mostly cancels between two heights."""
    ends = list(zip((at.height_mm, to.height_mm), exponents, strict=True))
    begins = [power_stops(height_mm, tolerances.height_mm, exponent) for height_mm, exponent in ends]
    if at.lens == to.lens:
        begins = [abs(begins[0] - begins[1])]
    own = [power_stops(height_mm, tolerances.scale_mm, exponent) for height_mm, exponent in ends]
    return (
        *(Term("the height", f"± {tolerances.height_mm:g} mm", stops) for stops in begins),
        *(Term("the height", f"± {tolerances.scale_mm:g} mm each", stops) for stops in own),
    )


def _neutral_density(at: Arrangement, to: Arrangement, tolerances: Tolerances) -> Iterator[Factor]:
    change_d = to.nd_density_d - at.nd_density_d
    if not change_d:
        return
    off_stops = tolerances.nd_density_d * STOPS_PER_DENSITY
    doubt = Term("the neutral density", f"± {tolerances.nd_density_d:g} D", off_stops)
    yield Factor(
        f"neutral density {change_d:+.2f} D: 10^{change_d:.2f}", change_d * STOPS_PER_DENSITY, (doubt,)
    )
