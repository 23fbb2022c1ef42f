"""Before a run, at the light: lens, stop and height of each, and how long red light will be on the paper."""

from typing import TYPE_CHECKING

from footlight.baths.check import Check
from footlight.quantities import format_duration, format_length_mm, format_seconds
from footlight.sequence.compiler import Compiled
from footlight.sequence.hazards import hazards_of_tray
from footlight.sequence.model import AnyStep, Light
from footlight.sequence.spans import timeline
from footlight.sequence.totals import totals

if TYPE_CHECKING:
    from footlight.baths.flashed import Flashed
    from footlight.notebook.stock.fog_tests import FogTest

_STAGES = {"before": "to the bleach", "after-bleach": "after it"}


def lights(compiled: Compiled) -> list[Check]:
    """A line for each arrangement of lamp, lens, stop and height, with the times that it gives."""
    groups: dict[str, list[int]] = {}
    for step in compiled.sequence.steps:
        if isinstance(step, Light):
            light = compiled.light_at(step.number)
            assert light is not None, "every light step has its arithmetic"
            groups.setdefault(_arranged(step), []).append(light.time_ms)
    return [Check("light", f"{arranged}: {_times(times_ms)}") for arranged, times_ms in groups.items()]


def _arranged(step: Light) -> str:
    setup = step.placed.setup
    lens = f"{setup.lens} lens at {setup.stop}" if setup.lens else "bare lamp"
    filters = f", filter {setup.filter}" if setup.filter else ""
    height = format_length_mm(setup.height_mm)
    to = "lens pupil" if setup.lens else "lamp"
    return f"{step.placed.lamp.name}: {lens}{filters}, {height} {to} to sheet"


def _times(times_ms: list[int]) -> str:
    shortest = format_seconds(min(times_ms) / 1000)
    return shortest if len(times_ms) == 1 else f"{len(times_ms)} lights, {shortest} and more"


def red_ms(compiled: Compiled) -> dict[str, int]:
    """How long a sheet is under red light at most, if nobody waits [ms], by stage of the fog test: until the
    bleach is begun, and from there to white light. Without a bleach all of it is 'before'."""
    whole = totals(compiled, "most")
    white_ms = whole.white_ms if whole.white_ms is not None else whole.sheet_ms
    bleaches = {step.number for step in compiled.sequence.steps if _is_bleach(step)}
    spans = timeline(compiled.program, "most")
    begun_ms = next((span.start_ms for span in spans if span.step_number in bleaches), None)
    if begun_ms is None:
        return {"before": white_ms}
    return {"before": begun_ms, "after-bleach": white_ms - begun_ms}


def _is_bleach(step: AnyStep) -> bool:
    tray = getattr(step, "tray", None)
    return tray is not None and any("oxidiser" in one.natures for one in hazards_of_tray(tray))


def safelight(compiled: Compiled, kept: "dict[str, FogTest]") -> Check:
    """The planned time under red light against what fog tests found safe."""
    words, wrong = [], False
    for stage, planned_ms in red_ms(compiled).items():
        test = kept.get(stage)
        safe = f"safe {_clock(test.safe_s * 1000)}" if test else "not tested"
        too_long = test is not None and planned_ms > test.safe_s * 1000
        words.append(f"{_clock(planned_ms)} {_STAGES[stage]} ({'TOO LONG, ' if too_long else ''}{safe})")
        wrong = wrong or test is None or too_long
    return Check("safelight", f"red light {', '.join(words)}", wrong)


def _clock(time_ms: float) -> str:
    return format_duration(1000 * round(time_ms / 1000))


def flashed(waiting: "Flashed | None", now_s: int) -> list[Check]:
    """Sheets that wait since their pre-flash: they fog sooner than sheets that had no light."""
    if waiting is None:
        return []
    hours = max(0.0, (now_s - waiting.oldest_unix_s) / 3600)
    ago = f"{hours:.1f} h" if hours < 48 else f"{hours / 24:.0f} days"
    first, last, count = waiting.sheets[0], waiting.sheets[-1], len(waiting.sheets)
    sheets = f"sheet {first}" if count == 1 else f"{count} sheets, {first} to {last}"
    return [Check("sheet", f"{sheets}, pre-flashed {ago} ago: boxed since, little red light")]
