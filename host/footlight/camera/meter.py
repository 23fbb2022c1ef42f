"""What a meter says, as exposure value at ISO 100 (EV100).

N²/t = L·S/K for luminance L [cd/m²] and N²/t = E·S/C for incident light E [lx], so EV100 = log2(100·L/K)
= log2(100·E/C) (ISO 2720; K and C are the meter maker's choice within the standard's ranges).
"""

import math
from dataclasses import dataclass

from footlight.errors import InputError
from footlight.quantities import FStop, format_seconds, format_stop

K_USUAL, C_USUAL = 12.5, 250.0
# ISO 2720: K 10.6 to 13.4 (second-hand); C 240 to 400 (flat receptor), 320 to 540 (dome), from memory.
K_RANGE, C_RANGE = (10.6, 13.4), (240.0, 540.0)
_LEAST_INDEX, _MOST_INDEX = 0.001, 100_000.0


@dataclass(frozen=True)
class Scene:
    """How bright the subject is: EV at ISO 100, and what it was read from."""

    ev100: float
    said: str

    def __str__(self) -> str:
        own = f"EV {self.ev100:g}"
        return own if self.said == own else f"{self.said} = EV {self.ev100:.2f} at ISO 100"


def of_ev(ev: float, index: float = 100.0) -> Scene:
    """A reading in EV with the meter set to exposure index `index`: EV100 = EV - log2(index/100).

    Raises `InputError` outside EV -20 to 30, and for an index that is none.
    """
    check_index(index)
    if not -20 <= ev <= 30:
        raise InputError(f"reading: EV {ev:g} is out of range; allowed is EV -20 to 30")
    ev100 = ev - math.log2(index / 100)
    return Scene(ev100, f"EV {ev:g}" if index == 100 else f"EV {ev:g} at EI {index:g}")


def of_lux(lux: float, c: float = C_USUAL) -> Scene:
    """Incident light [lx] with calibration constant C. Raises `InputError` for none, or C off ISO 2720."""
    _above_zero(lux, "reading", "lx", "20000 lx")
    _within(c, "C", C_RANGE)
    return Scene(math.log2(100 * lux / c), f"{lux:g} lx (C = {c:g})")


def of_luminance(cd_m2: float, k: float = K_USUAL) -> Scene:
    """Luminance [cd/m²] with calibration constant K. Raises `InputError` for none, or K off ISO 2720."""
    _above_zero(cd_m2, "reading", "cd/m2", "500 cd/m2")
    _within(k, "K", K_RANGE)
    return Scene(math.log2(100 * cd_m2 / k), f"{cd_m2:g} cd/m² (K = {k:g})")


def of_exposure(seconds: float, stop: FStop, index: float) -> Scene:
    """What the meter proposes, `seconds` [s] at `stop`, with its dial at exposure index `index`.

    The way out where the index wanted is below the meter's range. Raises `InputError` for no time and an
    index that is none.
    """
    _above_zero(seconds, "reading", "s", "1/2 s")
    check_index(index)
    ev100 = math.log2(stop.exact_value**2 / seconds) - math.log2(index / 100)
    return Scene(ev100, f"{format_seconds(seconds)} at {format_stop(stop)}, EI {index:g}")


def lux_of(ev100: float, c: float = C_USUAL) -> float:
    """Incident light [lx] that is `ev100`."""
    return 2**ev100 * c / 100


def luminance_of(ev100: float, k: float = K_USUAL) -> float:
    """Luminance [cd/m²] that is `ev100`."""
    return 2**ev100 * k / 100


def check_index(index: float) -> None:
    """Raises `InputError` unless `index` is an exposure index: a number above zero."""
    if not _LEAST_INDEX <= index <= _MOST_INDEX:
        raise InputError(
            f"exposure index: EI {index:g} is out of range; allowed is EI {_LEAST_INDEX:g} to"
            f" {_MOST_INDEX:g}, for example 'EI 4'"
        )


def _within(value: float, name: str, limits: tuple[float, float]) -> None:
    if not limits[0] <= value <= limits[1]:
        raise InputError(
            f"meter constant {name}: {value:g} is out of range; allowed is {limits[0]:g} to {limits[1]:g}"
            " (ISO 2720)"
        )


def _above_zero(value: float, what: str, unit: str, example: str) -> None:
    if not 0 < value < math.inf:
        raise InputError(f"{what}: {value:g} {unit} must be more than zero, for example '{example}'")
