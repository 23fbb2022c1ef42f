"""One light while the mains sag: its mains, and what paper has had of it, ended in two ways."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from footlight.quantities.signs import signed_stops
from footlight.report import sheet_of_graphs as look

_STYLES = (("-", "0.0"), ("--", "0.45"))


@dataclass(frozen=True)
class Course:
    """A light as paper had it: times since the gate's rise [s], dose [reference s], and its gate [s]."""

    name: str
    at_s: Sequence[float]
    dose_s: Sequence[float]
    gate_s: float
    error_stops: float


def draw(asked_s: float, mains: Sequence[tuple[float, float]], courses: Sequence[Course], path: Path) -> None:
    """Write the picture; its format follows from the ending of `path`. mains: (s, per cent of nominal)."""
    figure = look.new(8.0, 5.2)
    upper, lower = figure.subplots(2, 1, sharex=True, height_ratios=(1, 3))
    for axes in (upper, lower):
        look.rule(axes)
    upper.plot([at_s for at_s, _ in mains], [percent for _, percent in mains], color="0.0", linewidth=1.2)
    upper.set_ylabel("mains, % of nominal", fontsize=8)
    lower.axhline(asked_s, color="0.6", linewidth=0.8)
    lower.annotate(f"asked: {asked_s:g} s", (0, asked_s), (0, 3), textcoords="offset points", fontsize=8)
    for course, (line, grey) in zip(courses, _STYLES, strict=False):
        _course(lower, course, line, grey)
    lower.set_ylabel("what paper has had, reference seconds", fontsize=8)
    lower.set_xlabel("seconds since the lamp was switched on", fontsize=8)
    lower.set_xlim(0, max(course.at_s[-1] for course in courses))
    lower.set_ylim(0, asked_s * 1.15)
    lower.legend(loc="lower right", fontsize=8, facecolor="white", edgecolor="white", framealpha=1)
    look.save(figure, path)


def _course(axes: Any, course: Course, line: str, grey: str) -> None:
    told = f"{course.name}: {course.gate_s:.1f} s of lamp, {signed_stops(course.error_stops)}"
    axes.plot(course.at_s, course.dose_s, line, color=grey, linewidth=1.6, label=told)
    axes.axvline(course.gate_s, linestyle=line, color=grey, linewidth=0.8)
