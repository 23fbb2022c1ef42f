"""The plan of a strip: bands, lights and blade marks.

In every manner each band's lights sum up to its total:

    covered    all bands lie open but the first; the blade moves on over one band after another
    uncovered  all bands are covered but the last; the blade moves back, one band after another
    separate   a slot shows one band at a time: no sum, no intermittency
    cut        the sheet is cut, each piece is exposed alone: no blade, no sum, no intermittency
"""

from dataclasses import dataclass
from typing import Literal, NamedTuple

from footlight.light.setup import LightSetup
from footlight.light.strip.blade import Blade

Manner = Literal["covered", "uncovered", "separate", "cut"]
BandKind = Literal["zero", "step", "anchor"]


class Band(NamedTuple):
    """One band: light it gets in all [s], where it lies along the strip [mm], what fall-off takes [stops].

    stops: its place against the centre [stops], None for the zero band, the anchor and arithmetic steps.
    """

    number: int
    kind: BandKind
    total_s: float
    stops: float | None
    start_mm: float
    end_mm: float
    fall_off_stops: float

    @property
    def width_mm(self) -> float:
        """Along the strip [mm]."""
        return self.end_mm - self.start_mm


class Light(NamedTuple):
    """One lamp-on: light given [s], the bands it reaches, and where the blade stands for it.

    edge_mm: where the shadow's edge falls [mm] from the zero end; mark_mm: where the blade itself stands
    [mm]; both None for cut pieces. With a slot they are those of the edge nearer the zero end.
    """

    number: int
    seconds: float
    lit: tuple[int, ...]
    edge_mm: float | None
    mark_mm: float | None

    @property
    def duration_ms(self) -> int:
        """Light to give [ms], dead time not included."""
        return round(self.seconds * 1000)


@dataclass(frozen=True)
class StripPlan:
    """A whole strip. purpose: what it is for, in the printer's words. notes: what to know, a sentence each.

    length_mm: along the strip [mm]. penumbra_mm: soft edge of the blade's shadow [mm], None if unknown.
    """

    name: str
    purpose: str
    manner: Manner
    setup: LightSetup
    bands: tuple[Band, ...]
    lights: tuple[Light, ...]
    length_mm: float
    blade: Blade | None
    penumbra_mm: float | None
    notes: tuple[str, ...]

    def given_s(self, band_number: int) -> float:
        """The sum of the lights that reach a band [s]."""
        return sum(light.seconds for light in self.lights if band_number in light.lit)

    def lamp_on_s(self, light: Light) -> float:
        """The lamp-on time of a light with the setup's dead time counted in [s]; the controller adds it."""
        return light.seconds + self.setup.dead_ms / 1000

    @property
    def steps(self) -> tuple[Band, ...]:
        """The bands between the zero and the anchor."""
        return tuple(band for band in self.bands if band.kind == "step")

    def as_dict(self) -> dict[str, object]:
        """For `--json`; units are in the keys."""
        return {
            "name": self.name,
            "purpose": self.purpose,
            "manner": self.manner,
            "setup": self.setup.name,
            "length_mm": self.length_mm,
            "penumbra_mm": _rounded(self.penumbra_mm, 2),
            "bands": [_band_dict(band) for band in self.bands],
            "lights": [self._light_dict(light) for light in self.lights],
            "notes": list(self.notes),
        }

    def _light_dict(self, light: Light) -> dict[str, object]:
        return {
            "number": light.number,
            "seconds": round(light.seconds, 3),
            "lamp_on_s": round(self.lamp_on_s(light), 3),
            "bands": list(light.lit),
            "edge_mm": _rounded(light.edge_mm, 1),
            "mark_mm": _rounded(light.mark_mm, 1),
        }


def _band_dict(band: Band) -> dict[str, object]:
    return {
        "number": band.number,
        "kind": band.kind,
        "total_s": round(band.total_s, 3),
        "stops": _rounded(band.stops, 4),
        "start_mm": round(band.start_mm, 1),
        "end_mm": round(band.end_mm, 1),
        "fall_off_stops": round(band.fall_off_stops, 3),
    }


def _rounded(value: float | None, places: int) -> float | None:
    return None if value is None else round(value, places)
