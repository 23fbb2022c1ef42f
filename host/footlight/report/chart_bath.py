"""A bath's chart: what its prints showed, against its use and against its age."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from footlight.baths.charted import Point
from footlight.report import sheet_of_graphs as look

# what -> (title, lowest top of the scale)
_ROWS = {
    "black": ("fullest black [D]", 2.2),
    "veil": ("veil [D]", 0.05),
    "mottle": ("mottle [D]", 0.015),
    "time": ("clearing or bleaching [s]", 60.0),
}


@dataclass(frozen=True)
class Ends:
    """Where use begins to tell and where it ends: sheets of 8x10 a litre, hours [h]; None: not known."""

    per_l: tuple[float, float] | None
    age_h: tuple[float, float] | None


def draw(title: str, points: Sequence[Point], ends: Ends, path: Path) -> None:
    """Write the picture; its format follows from the ending of `path`."""
    figure = look.new(9.0, 9.0)
    axes = figure.subplots(len(_ROWS), 2, sharex="col", sharey="row")
    for row, (what, (label, least_top)) in enumerate(_ROWS.items()):
        found = [point for point in points if point.what == what]
        left, right = axes[row]
        _graph(left, [(point.per_l, point) for point in found], ends.per_l)
        _graph(right, [(point.age_h, point) for point in found], ends.age_h)
        left.set_ylabel(label, fontsize=8)
        left.set_ylim(_bottom(what, found), max([least_top, *(1.15 * point.value for point in found)]))
    _ends_of_axes(axes, points, ends)
    figure.align_ylabels()
    figure.suptitle(title, x=0.01, ha="left", fontsize=11)
    _explain(figure, points)
    look.save(figure, path)


def _bottom(what: str, found: Sequence[Point]) -> float:
    """Blacks are all near their top, where a tenth matters; the others begin at nothing."""
    return min([1.4, *(0.95 * point.value for point in found)]) if what == "black" else 0.0


def _graph(axes: Any, found: list[tuple[float, Point]], ends: tuple[float, float] | None) -> None:
    look.rule(axes)
    if ends:
        axes.axvspan(*ends, facecolor="white", edgecolor="0.8", hatch="/", linewidth=0)
        axes.axvline(ends[1], color="0.0", linewidth=1.2, linestyle="--")
    if not found:
        look.say_empty(axes, "nothing known yet")
    for ago in sorted({point.baths_before for _, point in found}, reverse=True):
        own = [(x, point) for x, point in found if point.baths_before == ago]
        look.mark(axes, [x for x, _ in own], [point.value for _, point in own], ago)
    for x, point in found:
        if point.sheet is not None and point.baths_before == 0:
            axes.annotate(
                f"{point.sheet}", (x, point.value), xytext=(4, 4), textcoords="offset points", fontsize=7
            )


def _ends_of_axes(axes: Any, points: Sequence[Point], ends: Ends) -> None:
    for column, span, values, label in (
        (0, ends.per_l, [point.per_l for point in points], "through the bath [sheets of 8x10 a litre]"),
        (1, ends.age_h, [point.age_h for point in points], "in the open tray [h]"),
    ):
        axes[-1][column].set_xlabel(label, fontsize=8)
        axes[-1][column].set_xlim(0, 1.1 * max([*values, span[1] if span else 0.0, 1.0]))


def _explain(figure: Any, points: Sequence[Point]) -> None:
    from matplotlib.lines import Line2D
    from matplotlib.patches import Patch

    words = ("the last bath, with its sheets", "the one before", "two before", "earlier")
    last = max((min(point.baths_before, len(words) - 1) for point in points), default=0)
    handles: list[Any] = [
        Line2D([], [], marker=shape, markeredgecolor=edge, markerfacecolor=face, linestyle="none", label=word)
        for (shape, edge, face), word in list(zip(look.MARKS, words, strict=True))[: last + 1]
    ]
    handles += [
        Patch(facecolor="white", edgecolor="0.8", hatch="/", label="watch"),
        Line2D([], [], color="0.0", linestyle="--", linewidth=1.2, label="mix fresh"),
    ]
    figure.legend(handles=handles, loc="outside lower center", ncols=len(handles), fontsize=8, frameon=False)
