"""The picture of a print with the places that were measured."""

import io

import numpy as np

from footlight.strips.measure.spot import Spots
from footlight.strips.show import picture


def png(spots: Spots, name: str, dpi: int) -> bytes:
    """The page as PNG."""
    from matplotlib.figure import Figure

    page = Figure(figsize=(8.27, 8.0), layout=None)
    page.text(0.06, 0.955, f"Print {name}", fontsize=13, weight="bold")
    axes = page.add_axes((0.06, 0.27, 0.88, 0.65))
    height, width = (n / spots.view.px_per_mm for n in spots.view.density.shape)
    axes.imshow(spots.view.density, cmap="gray_r", vmin=0, vmax=2.2, extent=(0, width, height, 0))
    for label, place in spots.places.items():
        corners = place.at(
            np.array([0, place.length_mm, place.length_mm, 0, 0]),
            np.array([0, 0, place.width_mm, place.width_mm, 0]),
        )
        axes.plot(corners[:, 0], corners[:, 1], color=picture.MARK, linewidth=1.2)
        x, y = corners[:, 0].mean(), corners[:, 1].min()
        paper = {"facecolor": "white", "edgecolor": "none", "alpha": 0.85, "pad": 1.0}
        axes.text(x, y - 1, label, color=picture.MARK, fontsize=8, ha="center", va="bottom", bbox=paper)
    axes.set_xlabel("mm in the scan; red: what was measured", fontsize=8)
    axes.tick_params(labelsize=7)
    picture.words_below(page, [*spots.lines(), *(f"! {note}" for note in spots.notes)], top=0.19)
    buffer = io.BytesIO()
    page.savefig(buffer, dpi=dpi, format="png")
    return buffer.getvalue()
