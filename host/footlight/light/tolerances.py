"""What is taken for granted about measuring, with the reason for each figure. All can be given instead."""

import math
from dataclasses import dataclass, fields


@dataclass(frozen=True)
class Tolerances:
    """How far off each input may be, one standard uncertainty each; `REASONS` says why that much.

    height_mm, scale_mm [mm], stop_stops [stops], lens_stops [stops], bridge_stops [stops], nd_density_d [D],
    dead_ms [ms], meter_stops [stops], departure_p [exponent].
    """

    height_mm: float = 10.0
    scale_mm: float = 1.0
    stop_stops: float = 0.07
    lens_stops: float = 0.3
    bridge_stops: float = 1 / 6
    nd_density_d: float = 0.02
    dead_ms: float = 10.0
    meter_stops: float = 0.1
    departure_p: float = 0.1 / math.sqrt(3)


# The exponent of long exposures that is taken while it is not measured: the middle of 0.8 to 1.0.
UNMEASURED_P = 0.9

REASONS: dict[str, str] = {
    "height_mm": "where the scale of heights begins, lens pupil to sheet in its tray: a rule held beside the"
    " column, the pupil somewhere inside the lens, the tray's bottom; one error, shared by every height under"
    " one lens (common practice, no source)",
    "scale_mm": "each height that is set on that scale, by itself (common practice, no source)",
    "stop_stops": "each engraved stop that is set: ring, backlash and iris of a lens in use; two of them make"
    " 0.1 stop (common practice, no source)",
    "lens_stops": "a lens swap: other glass losses, other pupil ratio, head not matched to the lens"
    " (common practice, no source)",
    "bridge_stops": "a bridging strip in third-stop steps, matched by eye to half a step (arithmetic)",
    "nd_density_d": "neutral density at the wavelengths that paper sees, against its label (from memory)",
    "dead_ms": "the dead time, found by matching one long exposure with many short ones"
    " (common practice, no source)",
    "meter_stops": "a hand meter against the light that paper sees: scale, cosine error, colour"
    " (common practice, no source)",
    "departure_p": "the exponent of long exposures while it is not measured: anywhere from 0.8 to 1.0, so"
    " 0.1/√3 (the range is common practice; the root is JCGM 100:2008 §4.3.7)",
}
assert set(REASONS) == {field.name for field in fields(Tolerances)}
