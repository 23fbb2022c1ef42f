"""A small copy of a scan to find things in: about five pixels a millimetre, in rough density."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from footlight.strips.scan.scan import Scan

_PX_PER_MM = 5.0


@dataclass(frozen=True)
class Overview:
    """density: rough, by the scan's encoding alone [D]. px_per_mm: of this copy. first_px: first middle."""

    density: NDArray
    px_per_mm: float
    first_px: float = 0.5

    def sample(self, points_mm: NDArray) -> NDArray:
        """Density at points of the scan [mm], between pixels; outside: the nearest pixel."""
        from scipy.ndimage import map_coordinates

        column, row = (points_mm[..., axis] * self.px_per_mm - self.first_px for axis in (0, 1))
        return map_coordinates(self.density, [row, column], order=1, mode="nearest")


def make(scan: Scan, table: NDArray) -> Overview:
    """Every n-th pixel of the scan through a table from code to reflectance, smoothed a little."""
    from scipy.ndimage import uniform_filter

    step = max(1, round(scan.px_per_mm / _PX_PER_MM))
    half = step // 2
    pixels = scan.pixels[half::step, half::step]
    green = pixels if pixels.ndim == 2 else pixels[:, :, 1]
    # Smoothed as density, not as light: light would move every edge towards its dark side.
    density = uniform_filter(-np.log10(np.maximum(table, 1e-4))[green], 3, mode="nearest")
    return Overview(density.astype(np.float32), scan.px_per_mm / step, (half + 0.5) / step)
