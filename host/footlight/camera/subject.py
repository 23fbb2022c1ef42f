"""The colour of the light and the filter on the camera: what they do to speed *and* contrast of the paper.

Variable-contrast paper is one emulsion to blue light and another to green. Blue skylight makes it fast and
hard; tungsten light or a yellow filter slow and soft. How much is a property of one paper: there is no
table here, only settings that you state, or better measure with a strip under that light.
"""

import math
from dataclasses import dataclass, field

from footlight.camera.tolerances import Tolerances
from footlight.errors import InputError
from footlight.light.uncertainty import Term

_STANDARD = Tolerances()
_MOST_STOPS = 10.0
ISO_RANGE = (30.0, 220.0)


def range_stops(iso_range: float) -> float:
    """Stops from just white to full black for an ISO range R: R/100/log10(2).

    ISO 6846: R = 100·log10(H_S/H_T). Raises `InputError` outside R 30 to 220.
    """
    if not ISO_RANGE[0] <= iso_range <= ISO_RANGE[1]:
        raise InputError(
            f"range: R {iso_range:g} is out of range; allowed is R {ISO_RANGE[0]:g} to R {ISO_RANGE[1]:g}"
        )
    return iso_range / 100 / math.log10(2)


@dataclass(frozen=True)
class Condition:
    """A subject light or a camera filter, as stated or measured against the light of the exposure index.

    name: what the photographer calls it. more_stops: exposure needed beyond the index [stops, + is slower].
    range_r: change of the paper's ISO range R (+ is softer). measured: from a strip, not only stated.
    off_stops: how well `more_stops` is known [stops]; None takes the usual doubt of its kind.
    """

    name: str
    more_stops: float = 0.0
    range_r: float = 0.0
    measured: bool = False
    off_stops: float | None = None
    kind: str = field(default="light")

    def __post_init__(self) -> None:
        if not abs(self.more_stops) <= _MOST_STOPS:
            raise InputError(
                f"{self.kind} '{self.name}': {self.more_stops:g} stops; allowed is -{_MOST_STOPS:g} to"
                f" {_MOST_STOPS:g}"
            )
        if not abs(self.range_r) <= ISO_RANGE[1]:
            raise InputError(
                f"{self.kind} '{self.name}': contrast R {self.range_r:+g}; allowed is R -{ISO_RANGE[1]:g} to"
                f" +{ISO_RANGE[1]:g}"
            )

    @property
    def doubt(self) -> Term:
        """How well its effect on speed is known."""
        usual = _STANDARD.measured_stops if self.measured else _STANDARD.stated_stops
        off = usual if self.off_stops is None else self.off_stops
        how = "measured" if self.measured else "only stated"
        return Term(f"the {self.kind} '{self.name}'", f"± {off:.2f} stop, {how}", off)


@dataclass(frozen=True)
class Contrast:
    """What the paper holds under these conditions: its ISO range, in R and in stops."""

    iso_range: float
    stops: float

    def __str__(self) -> str:
        return f"paper holds R {self.iso_range:.0f}, {self.stops:.1f} stops from white to black"


def contrast(iso_range: float, conditions: tuple[Condition, ...]) -> Contrast:
    """The paper's range R with each condition's change added.

    Adding is exact for one condition; two together are an estimate until they are measured together.
    Raises `InputError` where the sum leaves what papers have.
    """
    total = iso_range + sum(condition.range_r for condition in conditions)
    return Contrast(total, range_stops(total))
