"""Doubts that enter a conversion only because the time itself has changed."""

import math

from footlight.light.departure import exponent
from footlight.light.setup import Departure
from footlight.light.tolerances import Tolerances
from footlight.light.uncertainty import LN2, Term

_SAME_STOPS = 1e-9
# Half-width of a range over the standard uncertainty of a value anywhere within it (JCGM 100:2008 §4.3.7).
_LIMITS = math.sqrt(3)


def of_the_time(
    from_s: float, to_s: float, dimmer_stops: float, departure: Departure | None, tolerances: Tolerances
) -> list[Term]:
    """The terms of a time that goes from `from_s` to `to_s` [s] in a light dimmer by"
    " `dimmer_stops` [stops]."""
    long = long_exposure(dimmer_stops, departure, tolerances)
    return [term for term in (long, _dead_time(from_s, to_s, tolerances)) if term.stops > _SAME_STOPS]


def long_exposure(dimmer_stops: float, departure: Departure | None, tolerances: Tolerances) -> Term:
    """The paper's exponent p, measured or not: log2(time) = S/p, so a doubt u of p shifts it by S·u/p².

    dimmer_stops: S, how much dimmer than the light to compare with [stops].
    """
    p = exponent(departure)
    off = departure.p_uncertainty if departure else tolerances.departure_p
    detail = f"p {p:g} ± {off:.2g}" if departure else f"p {p:g} ± {off * _LIMITS:.2g}, not measured"
    shape = "normal" if departure else "uniform"
    return Term("long-exposure behaviour", detail, abs(dimmer_stops) * off / p**2, shape)


def _dead_time(from_s: float, to_s: float, tolerances: Tolerances) -> Term:
    """One dead time is in both exposures, and weighs differently in each."""
    off_s = tolerances.dead_ms / 1000
    return Term("the dead time", f"± {tolerances.dead_ms:g} ms", abs(off_s / from_s - off_s / to_s) / LN2)
