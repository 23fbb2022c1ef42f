"""Build the plan of a strip from the times of its bands."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from footlight.errors import InputError
from footlight.light.evenness import source_of
from footlight.light.relay import SOUND_STOPS, shortest_sound_s
from footlight.light.setup import LightSetup
from footlight.light.strip import steps
from footlight.light.strip.blade import Blade, mark_mm, penumbra_mm
from footlight.light.strip.plan import Band, BandKind, Light, Manner, StripPlan
from footlight.quantities import format_seconds

# A light that switching alone may falsify by more than this is one the relay cannot do.
_RELAY_LIMIT_STOPS = 0.1
_SOFT_SHARE = 0.25
_UNEVEN_STOPS = 0.05
_FEW_PARTS = 3


@dataclass(frozen=True)
class Layout:
    """How the strip lies: its length [mm], where the lens axis meets it [mm] (middle if None), the blade."""

    length_mm: float
    blade: Blade = Blade(0.0)
    axis_mm: float | None = None

    def __post_init__(self) -> None:
        if not 10 <= self.length_mm <= 3000:
            raise InputError(
                f"strip: {self.length_mm:g} mm long; allowed is 10 mm to 3000 mm, for example '254 mm'"
            )

    @property
    def axis(self) -> float:
        """Where the lens axis meets the strip, from its zero end [mm]."""
        return self.length_mm / 2 if self.axis_mm is None else self.axis_mm


def strip(
    setup: LightSetup,
    totals_s: Sequence[float],
    layout: Layout,
    *,
    name: str,
    purpose: str,
    manner: Manner = "covered",
    centre_s: float | None = None,
    anchor: bool = True,
) -> StripPlan:
    """The plan of a strip whose steps get `totals_s` [s], rising, behind a zero band that gets nothing.

    centre_s: what the steps are counted from [s], None for arithmetic steps. anchor: end with a band of
    ten times the dose. Raises `InputError` for steps that do not rise, lights shorter than the relay can
    do, and bands too narrow for the blade's penumbra.
    """
    totals = list(totals_s)
    steps.added(totals)
    bands = _bands(setup, totals, layout, centre_s, anchor)
    lights = _lights(setup, bands, layout, manner)
    _refuse_what_the_relay_cannot_do(setup, lights)
    soft_mm = None if manner == "cut" else penumbra_mm(layout.blade, setup.here)
    _refuse_bands_lost_in_penumbra(bands, soft_mm)
    notes = _notes(setup, bands, lights, soft_mm)
    blade = None if manner == "cut" else layout.blade
    return StripPlan(name, purpose, manner, setup, bands, lights, layout.length_mm, blade, soft_mm, notes)


def _bands(
    setup: LightSetup, totals: list[float], layout: Layout, centre_s: float | None, anchor: bool
) -> tuple[Band, ...]:
    rows: list[tuple[BandKind, float]] = [("zero", 0.0), *(("step", total) for total in totals)]
    if anchor:
        rows.append(("anchor", steps.anchor_s(totals)))
    width_mm = layout.length_mm / len(rows)
    source = source_of(setup.here)
    return tuple(
        Band(
            number=index,
            kind=kind,
            total_s=total,
            stops=math.log2(total / centre_s) if centre_s and kind == "step" else None,
            start_mm=index * width_mm,
            end_mm=(index + 1) * width_mm,
            fall_off_stops=source.loss_stops(setup.height_mm, abs((index + 0.5) * width_mm - layout.axis)),
        )
        for index, (kind, total) in enumerate(rows)
    )


def _lights(setup: LightSetup, bands: tuple[Band, ...], layout: Layout, manner: Manner) -> tuple[Light, ...]:
    """One light a band but the zero one; cumulative lights reach their band and all beyond it."""
    exposed = bands[1:]
    totals = [band.total_s for band in exposed]
    alone = manner in ("separate", "cut")
    seconds = totals if alone else steps.added(totals)
    order = list(range(len(exposed)))
    if manner == "uncovered":
        order.reverse()
    lights = []
    for number, index in enumerate(order, start=1):
        reached = exposed[index : index + 1] if alone else exposed[index:]
        edge = None if manner == "cut" else exposed[index].start_mm
        mark = None if edge is None else mark_mm(edge, layout.axis, layout.blade, setup.height_mm)
        lights.append(Light(number, seconds[index], tuple(band.number for band in reached), edge, mark))
    return tuple(lights)


def _refuse_what_the_relay_cannot_do(setup: LightSetup, lights: tuple[Light, ...]) -> None:
    least_s = shortest_sound_s(setup.relay, setup.mains_hz, _RELAY_LIMIT_STOPS)
    for light in lights:
        if light.seconds < least_s:
            raise InputError(
                f"strip, light {light.number}: {format_seconds(light.seconds)} is shorter than"
                " this relay can do"
                f" ({setup.relay}: {format_seconds(least_s)} at least); take larger steps, stop"
                " down, or expose"
                " the bands separately"
            )


def _refuse_bands_lost_in_penumbra(bands: tuple[Band, ...], soft_mm: float | None) -> None:
    width_mm = bands[0].width_mm
    if soft_mm is not None and soft_mm > width_mm / 2:
        raise InputError(
            f"strip: bands of {width_mm:.1f} mm with a soft edge of {soft_mm:.1f} mm; take fewer"
            " bands, a lower"
            " blade, or stop down"
        )


def _notes(
    setup: LightSetup, bands: tuple[Band, ...], lights: tuple[Light, ...], soft_mm: float | None
) -> tuple[str, ...]:
    found = [
        _short_lights(setup, lights),
        _intermittency(bands, lights),
        _fall_off(bands),
        _soft(bands, soft_mm),
    ]
    return tuple(note for note in found if note)


def _short_lights(setup: LightSetup, lights: tuple[Light, ...]) -> str:
    sound_s = shortest_sound_s(setup.relay, setup.mains_hz)
    short = [light for light in lights if light.seconds < sound_s]
    if not short:
        return ""
    shortest = min(short, key=lambda light: light.seconds)
    return (
        f"Light {shortest.number} of {format_seconds(shortest.seconds)} is below"
        f" {format_seconds(sound_s)}, where"
        f" the relay's switching alone may cost more than {SOUND_STOPS:g} stop."
    )


def _intermittency(bands: tuple[Band, ...], lights: tuple[Light, ...]) -> str:
    last = max(band.number for band in bands if band.kind == "step")
    parts = sum(last in light.lit for light in lights)
    if parts < _FEW_PARTS:
        return ""
    return (
        f"Intermittency: the last step gets its light in {parts} parts, which may act less or more than one"
        " exposure of the same length. Confirm the step you choose with one whole exposure."
    )


def _fall_off(bands: tuple[Band, ...]) -> str:
    losses = [band.fall_off_stops for band in bands]
    if max(losses) - min(losses) < _UNEVEN_STOPS:
        return ""
    return (
        f"Fall-off: the end bands get {max(losses) - min(losses):.2f} stop less than those in the"
        " middle. Read the"
        " strip with that in mind, or go higher."
    )


def _soft(bands: tuple[Band, ...], soft_mm: float | None) -> str:
    if soft_mm is None or soft_mm < _SOFT_SHARE * bands[0].width_mm:
        return ""
    return (
        f"Penumbra: {soft_mm:.1f} mm of each band of {bands[0].width_mm:.1f} mm lie in a soft edge:"
        " read the middle."
    )
