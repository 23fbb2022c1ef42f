"""What is taken for granted about metering and measuring at the camera. All can be given instead."""

from dataclasses import dataclass, fields

from footlight.light.tolerances import REASONS as LIGHT_REASONS
from footlight.light.tolerances import Tolerances as LightTolerances


@dataclass(frozen=True)
class Tolerances:
    """One standard uncertainty each; `REASONS` says why that much.

    reading_stops, index_stops, stop_stops, stated_stops, measured_stops [stops]; draw_mm, diameter_mm [mm];
    size_share [share of the ratio of image to object].
    """

    reading_stops: float = 1 / 6
    index_stops: float = 1 / 6
    stop_stops: float = LightTolerances.stop_stops
    stated_stops: float = 1 / 3
    measured_stops: float = 1 / 6
    draw_mm: float = 2.0
    diameter_mm: float = 0.3
    size_share: float = 0.02


REASONS: dict[str, str] = {
    "reading_stops": "a meter held by hand: its scale in thirds, where it is pointed or held"
    " (common practice, no source)",
    "index_stops": "an exposure index from a strip in third-stop steps, matched to half a step (arithmetic)",
    "stop_stops": LIGHT_REASONS["stop_stops"],
    "stated_stops": "a subject light or a filter whose effect is only stated (common practice, no source)",
    "measured_stops": "the same, measured with a strip in third-stop steps (arithmetic)",
    "draw_mm": "bellows draw with a tape, from the lens board to the film plane (common practice, no source)",
    "diameter_mm": "an opening seen through the front lens against a rule (common practice, no source)",
    "size_share": "something measured on the ground glass and at the subject (common practice, no source)",
}
assert set(REASONS) == {field.name for field in fields(Tolerances)}
