"""A finer scan than the measures need, averaged down: mottle lives in tiles of 1.27 mm.

The finding and the calibration are held by tests at 200 to 600 ppi; above that the same picture with more
pixels would only cost memory, and did once spoil the calibration.
"""

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from footlight.strips.scan.scan import Scan

WORKING_PPI = 600.0
_ROWS_AT_ONCE = 256


def to_working(scan: Scan) -> Scan:
    """The scan itself, or from 900 ppi on its whole-number average nearest to 600 ppi."""
    factor = round(scan.ppi / WORKING_PPI)
    if factor < 2:
        return scan
    note = f"averaged down from {scan.ppi:.0f} to {scan.ppi / factor:.0f} ppi: graininess reads lower for it"
    return replace(
        scan, pixels=_averaged(scan.pixels, factor), ppi=scan.ppi / factor, notes=(*scan.notes, note)
    )


def _averaged(pixels: NDArray, factor: int) -> NDArray:
    # A few rows at a time: a large file stays mapped, and is never whole in memory.
    height, width = (side // factor for side in pixels.shape[:2])
    out = np.empty((height, width, *pixels.shape[2:]), pixels.dtype)
    for top in range(0, height, _ROWS_AT_ONCE):
        rows = min(_ROWS_AT_ONCE, height - top)
        part = pixels[top * factor : (top + rows) * factor, : width * factor]
        cells = part.reshape(rows, factor, width, factor, *pixels.shape[2:])
        out[top : top + rows] = np.rint(cells.mean(axis=(1, 3), dtype=np.float32))
    return out
