"""The drift of a light as lines of text and as JSON."""

from typing import Any

from footlight.actions.trace_drift import Drift
from footlight.views.table import columns
from footlight.views.times import date_text


def lines(drift: Drift, width: int | None = None) -> list[str]:
    """References, and the lights as a table, `width` characters wide at most."""
    references = [
        f"reference {reference.text}: {reference.stops:+.2f} stop"
        + (f", from {date_text(reference.unix_s)}" if reference.unix_s else "")
        for reference in drift.references
    ]
    rows = [
        [
            date_text(light.unix_s),
            f"{light.sheet}",
            "–" if light.planned_stops is None else _stops(light.planned_stops),
            _range(light.least_stops, light.most_stops),
        ]
        for light in drift.lights
    ]
    return [*references, *columns(["date", "sheet", "planned [stops]", "given [stops]"], rows, width)]


def as_dict(drift: Drift) -> dict[str, Any]:
    """For a script."""
    return {
        "setup": drift.setup,
        "base": drift.base,
        "references": [vars(reference) for reference in drift.references],
        "lights": [vars(light) for light in drift.lights],
        "left_out": drift.left_out,
    }


def _range(least_stops: float, most_stops: float) -> str:
    same = most_stops - least_stops < 0.005
    return _stops(most_stops) if same else f"{_stops(least_stops)} to {_stops(most_stops)}"


def _stops(stops: float) -> str:
    # Nought has no sign.
    return f"{round(stops, 2) + 0.0:+.2f}" if abs(stops) >= 0.005 else "0"
