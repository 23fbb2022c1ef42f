"""The time line of a sheet: what was planned above, what was given below, on one ruled axis.

Greys and hatching only, so that it prints on any printer and reads under any lamp.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from footlight.report import sheet_of_graphs

# kind -> (grey level of the face, hatching)
LOOKS = {
    "bath": ("0.85", ""),
    "hand": ("0.85", ".."),
    "judge": ("0.70", "//"),
    "light": ("0.0", ""),
    "pause": ("1.0", ".."),
    "cut": ("1.0", "xx"),
}
LIFT_LOOK = ("0.85", "\\\\\\\\")
OVER_LOOK = ("1.0", "||||")
_HEIGHT = 0.34
_LEAST_WIDTH_S = 1.5  # so that a short light can still be seen


@dataclass(frozen=True)
class Bar:
    """One stretch of time.

    kind: a key of LOOKS. start_ms, end_ms: from the start of the run [ms]. lift_ms: its last part, spent
    lifting [ms]. over_ms: its last part, beyond the plan [ms]. note: a few words, such as '8.0 s'.
    """

    name: str
    kind: str
    start_ms: int
    end_ms: int
    lift_ms: int = 0
    over_ms: int = 0
    note: str = ""


def draw(title: str, planned: Sequence[Bar], given: Sequence[Bar], path: Path) -> None:
    """Write the picture; its format follows from the ending of `path` (.svg, .png, .pdf).

    Raises FootlightError when the drawing library is missing.
    """
    rows = _rows(planned, given)
    figure = sheet_of_graphs.new(11.0, 1.3 + 0.42 * len(rows))
    axes = figure.add_subplot()
    for row, name in enumerate(rows):
        _draw_row(axes, row, [bar for bar in planned if bar.name == name], above=True)
        _draw_row(axes, row, [bar for bar in given if bar.name == name], above=False)
    _rule(axes, title, rows, max(bar.end_ms for bar in [*planned, *given]) / 60_000)
    _explain(figure)
    sheet_of_graphs.save(figure, path)


def _rows(planned: Sequence[Bar], given: Sequence[Bar]) -> list[str]:
    """Names in the order of their first appearance."""
    return list(dict.fromkeys(bar.name for bar in [*planned, *given]))


def _draw_row(axes, row: int, bars: Sequence[Bar], above: bool) -> None:
    bottom = row - _HEIGHT - 0.02 if above else row + 0.02
    for bar in bars:
        body_end_ms = bar.end_ms - bar.lift_ms - bar.over_ms
        _piece(axes, bottom, bar.start_ms, body_end_ms, LOOKS[bar.kind])
        _piece(axes, bottom, body_end_ms, body_end_ms + bar.lift_ms, LIFT_LOOK)
        _piece(axes, bottom, bar.end_ms - bar.over_ms, bar.end_ms, OVER_LOOK)
        if bar.note:
            end = max(bar.end_ms, bar.start_ms + _LEAST_WIDTH_S * 1000) / 60_000
            axes.text(end + 0.05, bottom + _HEIGHT / 2, bar.note, va="center", fontsize=7)


def _piece(axes, bottom: float, start_ms: int, end_ms: int, look: tuple[str, str]) -> None:
    if end_ms <= start_ms:
        return
    width_ms = max(end_ms - start_ms, _LEAST_WIDTH_S * 1000 if look == LOOKS["light"] else 0)
    face, hatch = look
    axes.broken_barh(
        [(start_ms / 60_000, width_ms / 60_000)],
        (bottom, _HEIGHT),
        facecolor=face,
        edgecolor="black",
        linewidth=0.6,
        hatch=hatch,
    )


def _rule(axes, title: str, rows: Sequence[str], end_min: float) -> None:
    from matplotlib.ticker import FuncFormatter, MultipleLocator

    axes.set_yticks(range(len(rows)), rows, fontsize=9)
    axes.set_ylim(len(rows) - 0.4, -0.6)
    axes.set_xlim(0, end_min * 1.04)
    axes.xaxis.set_major_locator(MultipleLocator(1 if end_min <= 30 else 5))
    axes.xaxis.set_minor_locator(MultipleLocator(0.25 if end_min <= 30 else 1))
    axes.xaxis.set_major_formatter(FuncFormatter(lambda minutes, _: f"{minutes:.0f} min"))
    axes.grid(axis="x", which="major", color="0.6", linewidth=0.5)
    axes.grid(axis="x", which="minor", color="0.85", linewidth=0.3)
    axes.set_axisbelow(True)
    axes.tick_params(axis="x", labelsize=8)
    axes.set_title(title, loc="left", fontsize=11)
    for side in ("top", "right", "left"):
        axes.spines[side].set_visible(False)


def _explain(figure) -> None:
    from matplotlib.patches import Patch

    words = (
        ("bath", LOOKS["bath"]),
        ("judged by eye", LOOKS["judge"]),
        ("light", LOOKS["light"]),
        ("lift", LIFT_LOOK),
        ("over time", OVER_LOOK),
        ("power cut", LOOKS["cut"]),
    )
    patches = [
        Patch(facecolor=face, hatch=hatch, edgecolor="black", label=word) for word, (face, hatch) in words
    ]
    figure.legend(handles=patches, loc="outside lower center", ncols=len(patches), fontsize=8, frameon=False)
    figure.text(0.995, 0.985, "above: planned   below: given", ha="right", va="top", fontsize=8)
