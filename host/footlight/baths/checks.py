"""The check list before a run, made from the sequence and from what the notebook knows."""

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from footlight.baths import checks_light, checks_person, checks_trays
from footlight.baths.check import Check
from footlight.sequence.compiler import Compiled
from footlight.sequence.model import Light

if TYPE_CHECKING:
    from footlight.baths.flashed import Flashed
    from footlight.baths.forecast import Forecast
    from footlight.notebook.stock.fog_tests import FogTest


@dataclass(frozen=True)
class Known:
    """What the notebook knows; all empty without one. forecast: of the baths. waiting: pre-flashed sheets.
    fog_tests: by stage."""

    forecast: "Forecast | None" = None
    waiting: "Flashed | None" = None
    fog_tests: "dict[str, FogTest]" = field(default_factory=dict)


def checks(compiled: Compiled, known: Known, now_s: int) -> list[Check]:
    """Every line, in the order in which one walks through the darkroom."""
    sequence = compiled.sequence
    wet = bool(checks_trays.in_use(sequence))
    checks = [
        *checks_trays.baths(sequence, known.forecast),
        *checks_trays.water(sequence),
        *checks_trays.tongs(sequence),
        *checks_person.person(sequence),
        *checks_light.lights(compiled),
    ]
    if any(isinstance(step, Light) for step in sequence.steps):
        checks.append(Check("light", "lamp lit once without paper: even, sharp-edged, and out when told"))
    if wet:
        checks.append(checks_light.safelight(compiled, known.fog_tests))
        checks += checks_light.flashed(known.waiting, now_s)
    checks.append(Check("sheet", "holder tapped on its edge before the exposure: the sheet lies seated"))
    checks.append(Check("room", "screens dark, box of paper shut, white light out, pedal at the foot"))
    return checks
