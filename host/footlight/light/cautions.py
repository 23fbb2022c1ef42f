"""Where the laws bend: sentences that go with a computed exposure."""

import math

from footlight.light import sources
from footlight.light.relay import SOUND_STOPS, shortest_sound_s
from footlight.light.setup import Arrangement, Build
from footlight.light.tolerances import UNMEASURED_P
from footlight.quantities import FStop, format_seconds, format_stop

_WIDE = FStop.nearest(5.6)
_WORTH_SAYING_STOPS = 0.05


def of_the_law(at: Arrangement, to: Arrangement) -> tuple[str, ...]:
    """A bare lamp nearer than five diameters at either end of a change of height."""
    near = [
        end
        for end in (at, to)
        if end.lens is None and end.source_mm and sources.is_near(end.height_mm, end.source_mm)
    ]
    if not near or at.height_mm == to.height_mm:
        return ()
    plain = (to.height_mm / at.height_mm) ** 2
    return (
        f"The bare lamp's opening of {to.source_mm:g} mm is nearer than five times its size: the exact disc"
        f" formula is used; the square law alone would say × {plain:.4g}.",
    )


def of_switching(build: Build, seconds: float) -> tuple[str, ...]:
    """A time too short for the relay to mean it."""
    least_s = shortest_sound_s(build.relay, build.mains_hz)
    if seconds >= least_s:
        return ()
    where = f"{build.relay} relay" + ("" if build.relay == "contacts" else f" at {build.mains_hz:g} Hz")
    return (
        f"{format_seconds(seconds)} is short for a {where}: below {format_seconds(least_s)} its switching"
        f" alone may cost more than {SOUND_STOPS:g} stop. Stop down or go higher.",
    )


def of_the_head(build: Build, at: Arrangement, to: Arrangement) -> tuple[str, ...]:
    """A condenser head at a wide stop, or with another height: the lamp's image may not fill the pupil."""
    stops = [end.stop for end in (at, to) if end.stop is not None]
    if build.head == "diffuser" or len(stops) < 2 or stops[0] == stops[1]:
        return ()
    widest = min(stops, key=lambda stop: stop.exact_value)
    if widest.exact_value >= _WIDE.exact_value - 1e-6:
        return ()
    head = "With a condenser head" if build.head == "condenser" else "If the head has condensers"
    return (
        f"{head} the lamp's image may not fill the lens at {format_stop(widest)}: opening up then gives less"
        " than the marks say. Calibrate this stop with a strip.",
    )


def of_long_exposures(seconds: float, reciprocity_s: float) -> tuple[str, ...]:
    """The exponent is assumed: say what reciprocity would make of it. Both times in s, from one light."""
    if abs(math.log2(seconds / reciprocity_s)) < _WORTH_SAYING_STOPS:
        return ()
    return (
        "The time changes, and this paper's long-exposure behaviour is not measured:"
        f" p = {UNMEASURED_P} is taken; by reciprocity it would be {format_seconds(reciprocity_s)}. Keep the"
        " seconds and change the stop, or make a strip here.",
    )
