"""The picture of a pre-flash strip: how it lies with its marks, and density against flash."""

import io

from footlight.quantities import format_seconds
from footlight.strips.preflash import FlashRead, FlashReading
from footlight.strips.show import picture


def headline(reading: FlashReading) -> str:
    """The finding in a few words."""
    if reading.seconds is None:
        return "no flash" if reading.kind == "bands" else "threshold not on the strip"
    what = "give at most" if reading.kind == "threshold" else "give"
    return f"{what} {format_seconds(reading.seconds)}"


def figure(read: FlashRead):
    """One page."""
    from matplotlib.figure import Figure

    reading = read.reading
    page = Figure(figsize=(8.27, 8.0), layout=None)
    page.text(0.06, 0.955, f"Pre-flash strip {reading.scan}: {headline(reading)}", fontsize=13, weight="bold")
    strip, curve = page.add_axes((0.06, 0.60, 0.88, 0.31)), page.add_axes((0.10, 0.23, 0.86, 0.30))
    labels = ["none", *(f"{band.flash_s:.3g} s" for band in reading.flashes[1:])]
    picture.strip_as_found(strip, read.view, read.grid, labels)
    _curve(curve, reading)
    picture.words_below(page, [*reading.words, *(f"! {note}" for note in reading.notes)], top=0.15)
    return page


def png(read: FlashRead, dpi: int) -> bytes:
    """The page as PNG."""
    buffer = io.BytesIO()
    figure(read).savefig(buffer, dpi=dpi, format="png")
    return buffer.getvalue()


def _curve(axes, reading: FlashReading) -> None:
    flashes = [band.flash_s for band in reading.flashes[1:]]
    for row, name in enumerate(reading.bands):
        levels = [band.density_d[row] for band in reading.flashes]
        grey = "black" if row == 0 else f"{0.25 + 0.5 * row / len(reading.bands):.2f}"
        doubts = [band.uncertainty_d[row] for band in reading.flashes[1:]]
        axes.errorbar(
            flashes, levels[1:], yerr=doubts, fmt="o-", markersize=4, linewidth=0.8, color=grey, label=name
        )
        axes.axhline(levels[0], color=grey, linewidth=0.6, linestyle=":")
    if reading.threshold_s is not None:
        low, high = reading.low_s or flashes[0], reading.high_s or flashes[-1]
        axes.axvspan(low, high, facecolor="0.88", edgecolor="0.6", hatch="///", linewidth=0, zorder=0)
    if reading.seconds is not None:
        axes.axvline(reading.seconds, color=picture.ADVICE, linewidth=1.6)
    axes.set_xscale("log", base=2)
    axes.set_xticks(flashes, [f"{flash:.3g}" for flash in flashes])
    axes.set_xlabel("flash [s]; dotted: the step without flash; blue: what is advised", fontsize=8)
    axes.set_ylabel("density [D]", fontsize=8)
    axes.tick_params(labelsize=7)
    axes.legend(fontsize=7)
