"""The drift of a light over months: references that were found good, lights planned, lights given."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Any

from footlight.report import sheet_of_graphs as look

_LEAST_STOPS = 0.5  # the scale shows half a stop up and down at least: less is no drift


@dataclass(frozen=True)
class Light:
    """A light in stops from the first reference; planned: None where it is not known."""

    unix_s: int
    planned_stops: float | None
    least_stops: float
    most_stops: float


@dataclass(frozen=True)
class Step:
    """A reference that held from then on."""

    unix_s: int
    stops: float
    text: str


def draw(title: str, lights: Sequence[Light], steps: Sequence[Step], path: Path) -> None:
    """Write the picture; its format follows from the ending of `path`. Moments are the computer's own."""
    figure = look.new(9.0, 4.2)
    axes = figure.subplots()
    look.rule(axes)
    _references(axes, steps, max([light.unix_s for light in lights] + [step.unix_s for step in steps]))
    _lights(axes, lights)
    values = [abs(light.most_stops) for light in lights] + [abs(step.stops) for step in steps]
    top = max([_LEAST_STOPS, *(value * 1.2 for value in values)])
    axes.set_ylim(-top, top)
    axes.set_ylabel("stops from the first reference", fontsize=8)
    figure.suptitle(title, x=0.01, ha="left", fontsize=11)
    _dates(axes)
    figure.legend(loc="outside lower center", ncols=3, fontsize=8, frameon=False)
    look.save(figure, path)


def _references(axes: Any, steps: Sequence[Step], end_s: int) -> None:
    moments = [_when(step.unix_s) for step in steps] + [_when(end_s)]
    stops = [step.stops for step in steps] + [steps[-1].stops] if steps else [0.0]
    axes.step(moments, stops, where="post", color="0.55", linewidth=2.5, label="reference found good")
    for step in steps:
        at = (_when(step.unix_s), step.stops)
        axes.annotate(step.text, at, xytext=(3, 5), textcoords="offset points", fontsize=7, color="0.3")


def _lights(axes: Any, lights: Sequence[Light]) -> None:
    planned = [light for light in lights if light.planned_stops is not None]
    moments = [_when(light.unix_s) for light in planned]
    axes.plot(
        moments,
        [light.planned_stops for light in planned],
        "o",
        markeredgecolor="0.0",
        markerfacecolor="white",
        markersize=7,
        label="planned",
    )
    axes.plot(
        [_when(light.unix_s) for light in lights],
        [light.most_stops for light in lights],
        "o",
        color="0.0",
        markersize=3,
        label="given",
    )
    for light in lights:
        if light.least_stops < light.most_stops:
            axes.plot(
                [_when(light.unix_s)] * 2, [light.least_stops, light.most_stops], color="0.0", linewidth=1
            )


def _dates(axes: Any) -> None:
    from matplotlib.dates import AutoDateLocator, ConciseDateFormatter

    locator = AutoDateLocator(minticks=3, maxticks=8)
    axes.xaxis.set_major_locator(locator)
    axes.xaxis.set_major_formatter(ConciseDateFormatter(locator))


def _when(unix_s: int) -> datetime:
    return datetime.fromtimestamp(unix_s)
