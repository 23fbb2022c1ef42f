"""A limit of the window, with how sure it is."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Bound:
    """A dose [stops from the present one] and its 90 % interval, whose ends are the one-sided 95 % limits.

    ±inf: beyond the strip. by: what sets it.
    """

    stops: float
    low: float
    high: float
    by: str
