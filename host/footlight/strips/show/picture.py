"""The picture of what was found: the strip as it lies, its cells outlined: a wrong finding is seen."""

import math

import numpy as np

from footlight.strips.find.place import Grid
from footlight.strips.judge import curve
from footlight.strips.reading import Read
from footlight.strips.result import Interval, Reading
from footlight.strips.scan.overview import Overview

MARK, ADVICE = "#b00020", "#005a9c"


# Size of the page [in], and where strip, black and white lie on it.
_PAGE = ((8.27, 11.69), (0.06, 0.70, 0.88, 0.23), (0.10, 0.425, 0.86, 0.215), (0.10, 0.265, 0.86, 0.135))
_BARE = ((8.27, 8.3), (0.06, 0.655, 0.88, 0.32), (0.10, 0.28, 0.86, 0.29), (0.10, 0.065, 0.86, 0.185))


def figure(read: Read, bare: bool = False):
    """One page: the strip with marks above; black and white against the dose below; the advice in words.

    bare: without title and words, for a page that has them in text.
    """
    from matplotlib.figure import Figure

    reading = read.reading
    size, *places = _BARE if bare else _PAGE
    page = Figure(figsize=size, layout=None)
    strip, black = page.add_axes(places[0]), page.add_axes(places[1])
    white = page.add_axes(places[2], sharex=black)
    _strip(strip, read)
    _black(black, reading)
    _white(white, reading)
    if not bare:
        page.text(0.06, 0.955, f"Strip {reading.scan}: {headline(reading)}", fontsize=13, weight="bold")
        _words(page, reading)
    return page


def headline(reading: Reading) -> str:
    """The advice in a few words."""
    from footlight.quantities import format_seconds

    advice = reading.advice
    if advice.seconds is None:
        return advice.verdict
    return f"give {format_seconds(advice.seconds)} ({advice.stops:+.2f} stop)"


def _strip(axes, read: Read) -> None:
    first = read.reading.band(read.reading.bands[0])
    strip_as_found(
        axes, read.view, read.grid, ["zero" if not step.dose_s else f"{step.dose_s:.3g} s" for step in first]
    )


def strip_as_found(axes, view: Overview, grid: Grid, labels: list[str]) -> None:
    """The strip as it lies in the scan, every boundary drawn; labels: of the steps, zero first."""
    height, width = (n / view.px_per_mm for n in view.density.shape)
    axes.imshow(view.density, cmap="gray_r", vmin=0, vmax=2.2, extent=(0, width, height, 0))
    place = grid.place
    for edge in grid.steps:
        ends = place.at(np.array([edge.at_mm] * 2), np.array([0, place.width_mm]))
        _line(axes, ends, "-" if edge.seen else ":")
    for edge in grid.bands:
        _line(axes, place.at(np.array([0, place.length_mm]), np.array([edge.at_mm] * 2)), "-")
    _names(axes, grid, labels)
    axes.set_xlabel("mm in the scan; red: boundaries found, dotted: placed by spacing", fontsize=8)
    axes.tick_params(labelsize=7)


def _line(axes, points, style: str) -> None:
    axes.plot(points[:, 0], points[:, 1], style, color=MARK, linewidth=0.8)


def _names(axes, grid: Grid, labels: list[str]) -> None:
    place = grid.place
    for label, start, end in zip(labels, grid.steps, grid.steps[1:], strict=False):
        x, y = place.at((start.at_mm + end.at_mm) / 2, -2.0)
        axes.text(x, y, label, color=MARK, fontsize=6.5, ha="center", va="bottom")
    for name, start, end in zip(grid.names, grid.bands, grid.bands[1:], strict=False):
        x, y = place.at(-1.5, (start.at_mm + end.at_mm) / 2)
        axes.text(x, y, name, color=MARK, fontsize=6.5, ha="right", va="center", rotation=90)


def _black(axes, reading: Reading) -> None:
    for name, marker in (("black", "o"), ("grey", "s")):
        cells = [cell for cell in reading.band(name) if cell.dose_stops is not None]
        if not cells:
            continue
        x, y = [cell.dose_stops for cell in cells], [cell.density_d for cell in cells]
        axes.errorbar(
            x, y, yerr=[cell.spread_d for cell in cells], fmt=marker,
            color="black" if name == "black" else "0.5", markersize=4, linewidth=0.8,
            label=f"{name}, ± spread in the cell",
        )  # fmt: skip
    if reading.plateau_d is not None:
        level = reading.plateau_d - reading.limits_d[0]
        axes.axhline(level, color="0.4", linewidth=0.8, linestyle="--")
        axes.text(0.005, level + 0.015, "full black from here up", transform=axes.get_yaxis_transform(),
                  fontsize=7, ha="left", va="bottom", color="0.3")  # fmt: skip
        _curve(axes, reading)
    _bounds(axes, reading)
    _name_bounds(axes, reading)
    axes.set_ylabel("density [D]", fontsize=8)
    axes.legend(fontsize=7, loc="center right")
    axes.tick_params(labelsize=7, labelbottom=False)


def _curve(axes, reading: Reading) -> None:
    """The fitted black, drawn where it was fitted: from half-way up."""
    if reading.curve is None or reading.plateau_d is None:
        return
    a, b, c = reading.curve
    doses = [cell.dose_stops for cell in reading.band("black") if cell.dose_stops is not None]
    x = np.linspace(min(doses), max(doses[:-1]), 300)
    span = reading.plateau_d - reading.base_d
    form = next(one for one in curve.FORMS if one.name == reading.form)
    y = reading.plateau_d - span * form.share(np.clip(a + b * x + c * x * x, -12, 8))
    good = y > reading.plateau_d - 0.6 * span
    axes.plot(x[good], y[good], color="0.3", linewidth=0.9, label="fitted near its top", zorder=1)


def _white(axes, reading: Reading) -> None:
    for name, shade in (("white", "black"), ("white2", "0.55")):
        cells = reading.band(name)
        if not cells:
            continue
        zero = cells[0].density_d
        x = [cell.dose_stops for cell in cells[1:]]
        said = "just white" if name == "white" else "white + 2 stops"
        axes.plot(x, [cell.density_d - zero for cell in cells[1:]], "o-", color=shade, markersize=3,
                  linewidth=0.8, label=f"veil, {said}")  # fmt: skip
        axes.plot(x, [cell.excess_mottle_d for cell in cells[1:]], "x:", color=shade, markersize=4,
                  linewidth=0.8, label=f"mottle, {said}")  # fmt: skip
    axes.axhline(reading.limits_d[1], color="0.4", linewidth=0.8, linestyle="--")
    axes.axhline(reading.limits_d[2], color="0.4", linewidth=0.8, linestyle=":")
    axes.set_ylim(-0.004, 0.08)
    _bounds(axes, reading)
    axes.set_ylabel("beyond zero [D]", fontsize=8)
    axes.set_xlabel(
        "second exposure, stops from the present dose; dashed: limit of veil, dotted: of mottle", fontsize=8
    )
    if axes.get_legend_handles_labels()[0]:
        axes.legend(fontsize=7, loc="upper left")
    axes.tick_params(labelsize=7)


def _bounds(axes, reading: Reading) -> None:
    """L and U with their intervals as grey bars, the advice as a line."""
    for bound, hatch in ((reading.full, "///"), (reading.clean, "\\\\\\")):
        ends = _ends(bound)
        if ends:
            axes.axvspan(*ends, facecolor="0.88", edgecolor="0.6", hatch=hatch, linewidth=0, zorder=0)
    if reading.advice.stops is not None:
        axes.axvline(reading.advice.stops, color=ADVICE, linewidth=1.6)


def _name_bounds(axes, reading: Reading) -> None:
    """What bars and line are, above the plot."""
    named = [(reading.full, "black full"), (reading.clean, "white spoilt")]
    marks = [(sum(ends) / 2, text, "0.35") for bound, text in named if (ends := _ends(bound))]
    if reading.advice.stops is not None:
        marks.append((reading.advice.stops, "give", ADVICE))
    above = axes.get_xaxis_transform()
    last = -math.inf
    for at, text, colour in sorted(marks):
        # Names closer than a stop would run into each other: the second one goes up a line.
        raised = 1.055 if at - last < 1.0 else 1.01
        axes.text(at, raised, text, transform=above, fontsize=7, color=colour, ha="center", va="bottom")
        last = at if raised < 1.05 else -math.inf


def _ends(bound: Interval) -> tuple[float, float] | None:
    if bound.low is None or bound.high is None:
        return None
    return bound.low, bound.high


def _words(page, reading: Reading) -> None:
    advice = reading.advice
    rows = [
        *advice.words,
        *(f"Cause: {text}." for text in advice.causes),
        *(reading.taken.run_words if reading.taken else ()),
        *(f"! {text}" for text in reading.notes),
    ]
    words_below(page, rows, top=0.215)


def words_below(page, rows: list[str], top: float) -> None:
    """Sentences from a height of the page down, the first in bold; so small that all of them fit."""
    lines, points, spacing = [], 0.0, 0.0
    for points in (8.0, 7.0, 6.0, 5.0, 4.0):
        lines = [(line, not row) for row, text in enumerate(rows) for line in _wrapped(text, points, not row)]
        spacing = 0.0197 * points / page.get_figheight()
        if len(lines) * spacing <= top - 0.012:
            break
    for place, (line, bold) in enumerate(lines):
        weight = "bold" if bold else "normal"
        page.text(0.06, top - place * spacing, line, fontsize=points, weight=weight, va="top")


def _wrapped(sentence: str, points: float, bold: bool) -> list[str]:
    import textwrap

    return textwrap.wrap(sentence, int((104 if bold else 118) * 8 / points))
