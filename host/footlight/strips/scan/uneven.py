"""Uneven scanner light, taken from the background about the strip where that is light and seen all round."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from footlight.strips.scan.overview import Overview

_LIGHTEST_D, _LEAST_SHARE = 0.6, 0.04


@dataclass(frozen=True)
class Surface:
    """What is to be added to a density [D] at a place; terms of 1, x, y, x², xy, y², scaled to −1 … 1."""

    terms: NDArray
    size_mm: NDArray
    note: str = ""

    def at(self, points_mm: NDArray) -> NDArray:
        """The correction [D] at points of the scan [mm]."""
        if not self.terms.any():
            return np.zeros(points_mm.shape[:-1])
        return _design(points_mm, self.size_mm) @ self.terms


def _design(points_mm: NDArray, size_mm: NDArray) -> NDArray:
    x, y = np.moveaxis(2 * points_mm / size_mm - 1, -1, 0)
    return np.stack([x, y, x * x, x * y, y * y], axis=-1)


def none(note: str = "") -> Surface:
    """No correction."""
    return Surface(np.zeros(5), np.ones(2), note)


def from_background(view: Overview, background: NDArray | None) -> Surface:
    """A smooth surface through the background; none where there is too little of it or it is dark."""
    if background is None or background.mean() < _LEAST_SHARE:
        return none("no border is seen: uneven scanner light is not corrected")
    rows, columns = np.nonzero(background)
    keep = slice(None, None, max(1, len(rows) // 20_000))
    rows, columns = rows[keep], columns[keep]
    values = view.density[rows, columns]
    if np.median(values) > _LIGHTEST_D:
        return none(
            "the border is dark: uneven scanner light is not corrected; lay white paper about the strip"
        )
    if not _all_round(background):
        return none("the border is not seen all round: uneven scanner light is not corrected")
    size = np.array([view.density.shape[1], view.density.shape[0]]) / view.px_per_mm
    points = np.stack([columns + 0.5, rows + 0.5], axis=-1) / view.px_per_mm
    design = np.column_stack([np.ones(len(points)), _design(points, size)])
    terms, *_ = np.linalg.lstsq(design, values, rcond=None)
    return Surface(-terms[1:], size)


def _all_round(background: NDArray) -> bool:
    thirds = [np.array_split(background.any(axis=axis), 3) for axis in (0, 1)]
    rim = [background[:4], background[-4:], background[:, :4], background[:, -4:]]
    return all(part.any() for axis in thirds for part in axis) and all(side.mean() > 0.5 for side in rim)
