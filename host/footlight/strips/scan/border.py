"""The black border that some scanners leave about what they scan: it is no background, and no strip."""

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from footlight.strips.scan.overview import Overview

_BLACK_D, _LIGHT_D = 1.0, 0.6
_BLACK_SHARE = 0.9
_WIDEST_MM = 20.0
_BLUR_MM = 0.8  # how far the border's edge reaches in
_EVEN_D = 0.1
NOTE = "the scan has a black border: left out"


def painted_over(view: Overview) -> Overview:
    """The same view, its black border covered by what lies next to it; the view itself where it has none.

    Only where light, even paper or lid lies all along the inside of the border: a strip on a black sheet has
    no border, but a dark background.
    """
    density = view.density
    widths = [_width(lines, view.px_per_mm) for lines in (density, density[::-1], density.T, density.T[::-1])]
    top, bottom, left, right = widths
    inner = density[top : len(density) - bottom, left : density.shape[1] - right]
    if not any(widths) or not _is_light(inner):
        return view
    return replace(view, density=np.pad(inner, ((top, bottom), (left, right)), mode="edge"))


def _width(lines: NDArray, px_per_mm: float) -> int:
    """How many lines from a side on are black, and the blur beyond them."""
    first = lines[: round(_WIDEST_MM * px_per_mm)]
    black = (first > _BLACK_D).mean(axis=1) > _BLACK_SHARE
    count = len(black) if black.all() else int(black.argmin())
    return count + round(_BLUR_MM * px_per_mm) if count else 0


def _is_light(inner: NDArray) -> bool:
    """Is there one light tone all along its rim?"""
    if min(inner.shape) < 8:
        return False
    rim = np.concatenate([inner[0], inner[-1], inner[:, 0], inner[:, -1]])
    level = float(np.median(rim))
    return level < _LIGHT_D and float((np.abs(rim - level) < _EVEN_D).mean()) > _BLACK_SHARE
