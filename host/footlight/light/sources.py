"""Light from a bare source: point, disc, and when one may stand for the other.

Sources: a uniform Lambertian disc on its axis gives E = πLr²/(r² + d²) (exact integral); a source may
be taken as a point from five times its largest dimension on (IES Lighting Handbook, definitions).
"""

import math

from footlight.errors import InputError

FIVE_TIMES = 5.0


def disc_against_point(distance_mm: float, diameter_mm: float) -> float:
    """Illuminance on the axis of a disc as a fraction of what the square law says; both lengths [mm].

    1 for a point; 0.9901 at five diameters.
    """
    _lengths(distance_mm, diameter_mm)
    return distance_mm**2 / ((diameter_mm / 2) ** 2 + distance_mm**2)


def is_near(distance_mm: float, diameter_mm: float) -> bool:
    """True where the source is nearer than five times its largest dimension; both lengths [mm]."""
    _lengths(distance_mm, diameter_mm)
    return distance_mm < FIVE_TIMES * diameter_mm


def point_law_error_stops(distance_mm: float, diameter_mm: float) -> float:
    """How much the square law overstates the light on the axis of a disc [stops]; both lengths [mm]."""
    return -math.log2(disc_against_point(distance_mm, diameter_mm))


def least_distance_mm(diameter_mm: float) -> float:
    """The distance [mm] from which a source of this diameter [mm] may be taken as a point."""
    return FIVE_TIMES * diameter_mm


def _lengths(distance_mm: float, diameter_mm: float) -> None:
    if not 0 < distance_mm < math.inf:
        raise InputError(f"distance: {distance_mm:g} mm must be more than zero, for example '620 mm'")
    if not 0 <= diameter_mm < math.inf:
        raise InputError(
            f"diameter of the source: {diameter_mm:g} mm must not be negative, for example '60 mm'"
        )
