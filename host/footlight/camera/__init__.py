"""The view camera: true f-number, bellows factor, exposure times at indexes that meters do not have.

    >>> from footlight.camera import exposure, meter
    >>> from footlight.quantities import parse_stop
    >>> scene = meter.of_ev(12)                                   # EV 12 at ISO 100
    >>> found = exposure.time_for(scene, parse_stop("f/22", "stop"), exposure.Film(index=4))
    >>> round(found.metered_s, 3)
    3.125

Lengths are in mm, times in s, light in EV at ISO 100, differences in stops (positive: more exposure needed).
"""
