"""A small copy of a scan to find things in: about five pixels a millimetre, in rough density."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from footlight.strips.scan import Scan

_PX_PER_MM = 5.0


@dataclass(frozen=True)
class Overview:
    """density: rough, by the scan's encoding alone [D]. px_per_mm: of this copy."""

    density: NDArray
    px_per_mm: float

    def sample(self, points_mm: NDArray) -> NDArray:
        """Density at points of the scan [mm], between pixels; outside: the nearest pixel."""
        from scipy.ndimage import map_coordinates

        row, column = points_mm[..., 1] * self.px_per_mm - 0.5, points_mm[..., 0] * self.px_per_mm - 0.5
        return map_coordinates(self.density, [row, column], order=1, mode="nearest")


def make(scan: Scan, table: NDArray) -> Overview:
    """Every n-th pixel of the scan through a table from code to reflectance, smoothed a little."""
    from scipy.ndimage import uniform_filter

    step = max(1, round(scan.px_per_mm / _PX_PER_MM))
    half = step // 2
    pixels = scan.pixels[half::step, half::step]
    green = pixels if pixels.ndim == 2 else pixels[:, :, 1]
    reflectance = uniform_filter(table[green], 3, mode="nearest")
    density = -np.log10(np.maximum(reflectance, 1e-4)).astype(np.float32)
    return Overview(density, scan.px_per_mm / step)
