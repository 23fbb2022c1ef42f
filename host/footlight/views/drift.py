"""The drift of a light as lines of text and as JSON."""

from typing import Any

from footlight.actions.trace_drift import Drift
from footlight.errors import act
from footlight.views.counted import lamp_text
from footlight.views.table import Grid
from footlight.views.times import date_text

# A counted light may last a third of a stop longer; a lamp below that cannot be made good. Common practice.
_LEARN_STOPS, _CHANGE_STOPS = 0.1, -0.25


def lines(drift: Drift, width: int | None = None) -> list[str]:
    """References, and the lights as a table, `width` characters wide at most."""
    return [*reference_lines(drift), *light_grid(drift).lines(width), *ageing_lines(drift)]


def reference_lines(drift: Drift) -> list[str]:
    """The references, in stops from the first."""
    return [
        f"reference {reference.text}: {reference.stops:+.2f} stop"
        + (f", from {date_text(reference.unix_s)}" if reference.unix_s else "")
        for reference in drift.references
    ]


def light_grid(drift: Drift) -> Grid:
    """The lights, in stops from the first reference."""
    rows = [
        [
            date_text(light.unix_s),
            f"{light.sheet}",
            "–" if light.planned_stops is None else _stops(light.planned_stops),
            _range(light.least_stops, light.most_stops),
        ]
        for light in drift.lights
    ]
    head = ["date", "sheet", "planned [stops]", "given [stops]"]
    if any(light.lamp_stops is not None for light in drift.lights):
        head.append("lamp [stops]")
        for row, light in zip(rows, drift.lights, strict=True):
            row.append("–" if light.lamp_stops is None else _stops(light.lamp_stops))
    return Grid(head, rows)


def ageing_lines(drift: Drift) -> list[str]:
    """How the lamp stands against what was learnt, and what to do about it."""
    ageing = drift.ageing
    if ageing is None:
        return []
    month = "" if ageing.month_stops is None else f", {_stops(ageing.month_stops)} stop in thirty days"
    said = f"{lamp_text(ageing.stops)} over its last {ageing.lights} counted lights{month}"
    if ageing.stops <= _CHANGE_STOPS:
        return [f"! {said}: near the end of what counting may add; change the bulb, then learn it anew"]
    if abs(ageing.stops) >= _LEARN_STOPS:
        return [f"! {said}: learn it anew ({act('lamp learn')}), or see what has moved"]
    return [said]


def as_dict(drift: Drift) -> dict[str, Any]:
    """For a script."""
    return {
        "setup": drift.setup,
        "base": drift.base,
        "references": [vars(reference) for reference in drift.references],
        "lights": [vars(light) for light in drift.lights],
        "ageing": vars(drift.ageing) if drift.ageing else None,
        "left_out": drift.left_out,
    }


def _range(least_stops: float, most_stops: float) -> str:
    same = most_stops - least_stops < 0.005
    return _stops(most_stops) if same else f"{_stops(least_stops)} to {_stops(most_stops)}"


def _stops(stops: float) -> str:
    # Nought has no sign.
    return f"{round(stops, 2) + 0.0:+.2f}" if abs(stops) >= 0.005 else "0"
