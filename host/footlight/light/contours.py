"""A picture of a sheet with its fall-off in stops. Needs the `pictures` extra (matplotlib)."""

from pathlib import Path

from footlight.errors import InputError, field
from footlight.light.evenness import Source, grid_stops, of_sheet
from footlight.quantities import Sheet, format_sheet

_PLACES = 81
_KINDS = (".png", ".svg", ".pdf")
_CONTOURS = (0.02, 0.05, 0.1, 0.2, 0.3, 0.5, 0.75, 1.0, 1.5, 2.0, 3.0)
_SOURCES = {"lens": "under a lens, cos⁴", "bare": "under a bare lamp, cos³", "disc": "under a near lamp"}


def draw(path: Path, sheet: Sheet, height_mm: float, source: Source) -> None:
    """Draw the sheet to scale with contours of equal loss [stops] and write it to `path` (PNG, SVG, PDF).

    height_mm: pupil or lamp to sheet [mm]. Raises `InputError` where matplotlib is missing, the file name
    has another ending, or the file cannot be written.
    """
    if path.suffix.lower() not in _KINDS:
        raise InputError(f"{field('picture')}: '{path}' must end in .png, .svg or .pdf")
    figure = _figure(sheet, height_mm, source)
    try:
        figure.savefig(path, dpi=150)
    except OSError as error:
        raise InputError(
            f"{field('picture')}: '{path}' cannot be written ({error.strerror}); choose another place"
        ) from error


def _figure(sheet: Sheet, height_mm: float, source: Source):
    try:
        from matplotlib.figure import Figure
    except ImportError as error:
        raise InputError(
            "a picture needs matplotlib: pip install 'footlight[pictures]'; the table needs nothing"
        ) from error
    aspect = sheet.height_mm / sheet.width_mm
    figure = Figure(figsize=(6.0, 6.0 * aspect + 1.2), layout="constrained")
    axes = figure.add_subplot()
    _contours(axes, sheet, height_mm, source)
    corner = of_sheet(sheet, height_mm, source).corner_stops
    kind = _SOURCES[source.law]
    axes.set_title(
        f"{format_sheet(sheet)} at {height_mm:.0f} mm {kind}\nlight missing, in stops: corners {corner:.2f}"
    )
    axes.set_xlabel("mm from the middle")
    axes.set_aspect("equal")
    return figure


def _contours(axes, sheet: Sheet, height_mm: float, source: Source) -> None:
    loss = grid_stops(sheet, height_mm, source, _PLACES, _PLACES)
    xs = [sheet.width_mm * (i / (_PLACES - 1) - 0.5) for i in range(_PLACES)]
    ys = [sheet.height_mm * (i / (_PLACES - 1) - 0.5) for i in range(_PLACES)]
    most = max(max(row) for row in loss)
    # The greys never span less than two stops, so that a flat sheet also looks flat.
    axes.pcolormesh(xs, ys, loss, cmap="gray_r", vmin=0, vmax=max(2.0, 1.5 * most), shading="gouraud")
    levels = [level for level in _CONTOURS if level < most]
    if levels:
        lines = axes.contour(xs, ys, loss, levels=levels, colors="black", linewidths=1.0)
        axes.clabel(lines, fmt="%g", fontsize=9)
    axes.plot(0, 0, marker="+", color="black", markersize=10)
