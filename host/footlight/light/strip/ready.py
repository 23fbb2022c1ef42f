"""Strips ready made: second exposure, pre-flash, dead time, and the crossed strip of a reversal paper."""

from dataclasses import dataclass, replace

from footlight.errors import InputError
from footlight.light.setup import LightSetup
from footlight.light.strip.blade import Blade
from footlight.light.strip.build import Layout, strip
from footlight.light.strip.plan import Band, Manner, StripPlan
from footlight.light.strip.steps import fstop_steps
from footlight.quantities import Sheet, format_seconds

# A strip finds the place in whole stops, the next one the exposure in thirds (common practice, no source).
FIRST_STOPS, NEXT_STOPS = 1.0, 1 / 3
STEPS = 7
_NO_CARD = (
    "Never lay a card on wet paper: rest an opaque blade across the tray rims and give its height over the"
    " sheet, or cut the sheet and expose each piece alone. These marks are for a dry sheet."
)


def second_exposure(
    setup: LightSetup,
    centre_s: float,
    layout: Layout,
    *,
    step_stops: float = FIRST_STOPS,
    count: int = STEPS,
    manner: Manner = "covered",
) -> StripPlan:
    """A strip of second exposures about `centre_s` [s] on a bleached, wet sheet, with zero and anchor."""
    totals = fstop_steps(centre_s, step_stops, count)
    purpose = "how much second exposure gives full blacks and clean whites"
    plan = strip(
        setup, totals, layout, name="second exposure", purpose=purpose, manner=manner, centre_s=centre_s
    )
    on_the_sheet = manner != "cut" and layout.blade.height_mm == 0
    return replace(plan, notes=(_NO_CARD, *plan.notes)) if on_the_sheet else plan


def preflash_threshold(
    setup: LightSetup, centre_s: float, layout: Layout, *, step_stops: float = 0.5, count: int = STEPS
) -> StripPlan:
    """Flashes in steps on dry paper, then first developer and fix, no reversal: where paper begins to see.

    The threshold is the first step 0.04 D above the band without flash; a quick stand-in for the decision
    strip, never in place of it.
    """
    purpose = "the least flash that paper sees: first developer and fix only, no reversal"
    totals = fstop_steps(centre_s, step_stops, count)
    return strip(
        setup, totals, layout, name="pre-flash threshold", purpose=purpose, centre_s=centre_s, anchor=False
    )


def preflash_decision(
    setup: LightSetup, centre_s: float, layout: Layout, *, step_stops: float = 0.5, count: int = 5
) -> StripPlan:
    """Flashes in bands; then one camera exposure of a shadow scale across them, and the full reversal."""
    purpose = "the largest flash that keeps the black: one shadow scale across all bands, full reversal"
    totals = fstop_steps(centre_s, step_stops, count)
    return strip(
        setup, totals, layout, name="pre-flash decision", purpose=purpose, centre_s=centre_s, anchor=False
    )


def dead_time(
    setup: LightSetup,
    layout: Layout,
    *,
    short_s: float = 0.5,
    count: int = 10,
    tries_ms: tuple[float, ...] = (0, 25, 50, 75, 100, 150, 200),
) -> StripPlan:
    """One band of `count` short exposures beside single ones; the single one that matches tells δ.

    A dead time of δ makes `count` exposures of `short_s` [s] equal to one of T = n·t - (n - 1)·δ; there is
    one band for each of `tries_ms` [ms]. All are lamp-on times, so the setup's own dead time is set to 0.
    """
    singles = [count * short_s - (count - 1) * tried_ms / 1000 for tried_ms in tries_ms]
    if count < 2 or min(singles) <= 0:
        raise InputError(
            f"dead time: {count} x {format_seconds(short_s)} cannot test {max(tries_ms):g} ms;"
            " take longer or fewer"
            " short exposures"
        )
    bare = replace(setup, dead_ms=0)
    rising = sorted(singles)
    plan = strip(
        bare, rising, layout, name="dead time", purpose="", manner="separate", anchor=False, centre_s=None
    )
    many = Band(0, "step", count * short_s, None, 0.0, plan.bands[0].end_mm, plan.bands[0].fall_off_stops)
    first = plan.lights[0]._replace(seconds=short_s, lit=(0,), edge_mm=0.0, mark_mm=None)
    lights = [first._replace(number=number) for number in range(1, count + 1)]
    lights += [light._replace(number=light.number + count) for light in plan.lights]
    return replace(
        plan,
        purpose=f"dead time: which single exposure matches {count} of {format_seconds(short_s)} in band 0",
        bands=(many, *plan.bands[1:]),
        lights=tuple(lights),
        notes=(*plan.notes, _dead_time_key(rising, count, short_s)),
    )


def _dead_time_key(singles: list[float], count: int, short_s: float) -> str:
    pairs = [
        f"band {number} ({format_seconds(single)}) {(count * short_s - single) / (count - 1) * 1000:.0f} ms"
        for number, single in enumerate(singles, start=1)
    ]
    return f"The band that matches band 0 tells the dead time: {', '.join(pairs)}."


@dataclass(frozen=True)
class CrossedStrip:
    """First exposures in lengthwise bands, second exposures in steps across them, on one sheet."""

    sheet: Sheet
    first: StripPlan
    second: StripPlan

    @property
    def row_names(self) -> tuple[str, ...]:
        """What the lengthwise bands come out as."""
        return ROWS

    def as_dict(self) -> dict[str, object]:
        """For `--json`."""
        return {"rows": list(ROWS), "first": self.first.as_dict(), "second": self.second.as_dict()}


ROWS = ("black (unexposed)", "mid-grey", "just white", "white + 2 stops")
# Mid-grey lies this far below just white on a paper of normal range (common practice, no source).
GREY_STOPS = -4 / 3
OVER_STOPS = 2.0


def crossed(
    first_setup: LightSetup,
    white_s: float,
    second: StripPlan,
    sheet: Sheet,
    *,
    grey_stops: float = GREY_STOPS,
    axis_mm: float | None = None,
) -> CrossedStrip:
    """The crossed strip: `white_s` [s] of first exposure is what just gives white.

    The lengthwise bands get none, `grey_stops` below white, white, and two stops more. They are made on
    the dry sheet, with a card lying on it, before the first developer.
    """
    if not -4 <= grey_stops < 0:
        raise InputError(
            f"mid-grey: {grey_stops:g} stops from white; allowed is -4 to below 0, for example '-1 1/3'"
        )
    totals = [white_s * 2**grey_stops, white_s, white_s * 2**OVER_STOPS]
    across_mm = min(sheet.width_mm, sheet.height_mm)
    first = strip(
        first_setup,
        totals,
        Layout(across_mm, Blade(0.0), axis_mm),
        name="first exposures",
        purpose="black, mid-grey, just white and white + 2 stops, lengthwise, on the dry sheet",
        centre_s=white_s,
        anchor=False,
    )
    return CrossedStrip(sheet, first, second)
