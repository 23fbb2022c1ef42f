"""An invented print: black rebate, a picture of soft tones, a plain sky; two known patches beside it."""

from dataclasses import dataclass

import numpy as np

from footlight.strips.scan.scan import Scan, make
from footlight.strips.simulated import fields, paper, scanner

_PATCHES = ((0.06, 3.0), (1.90, 11.0))  # density [D], left edge [mm]; 6 mm square, 3 mm from the top
_LEFT_MM, _TOP_MM, _WIDE_MM, _HIGH_MM = 8.0, 15.0, 110.0, 90.0
_REBATE_MM = 7.0
_SKY_MM = 28.0


@dataclass(frozen=True)
class Printed:
    """The scan, and the densities of its rebate and of its sky [D]."""

    scan: Scan
    rebate_d: float
    highlight_d: float


def scanned(ppi: float, rng: np.random.Generator, sky: bool = True, rebate: bool = True) -> Printed:
    """Scan a print. sky, rebate: leave them out to see what is said then."""
    device = scanner.Scanner(ppi=ppi)
    shape = tuple(round(side * ppi / 25.4) for side in (_TOP_MM + _HIGH_MM + 8, _LEFT_MM + _WIDE_MM + 8))
    y, x = ((np.arange(n) + 0.5) * 25.4 / ppi for n in shape)
    density = np.full(shape, device.lid_d, np.float32)
    for known, left in _PATCHES:
        density[np.ix_((y > 3) & (y < 9), (x > left) & (x < left + 6))] = known
    rebate_d, highlight_d = float(rng.uniform(1.8, 2.0)), float(rng.uniform(0.09, 0.14))
    rows, columns = _within(y - _TOP_MM, _HIGH_MM, 0), _within(x - _LEFT_MM, _WIDE_MM, 0)
    if rebate:
        density[np.ix_(rows, columns)] = rebate_d
    inner = _REBATE_MM if rebate else 0.0
    rows, columns = _within(y - _TOP_MM, _HIGH_MM, inner), _within(x - _LEFT_MM, _WIDE_MM, inner)
    tones = _tones(y[rows] - _TOP_MM, x[columns] - _LEFT_MM, highlight_d, sky, rng)
    density[np.ix_(rows, columns)] = tones
    codes = scanner.scanned_codes(density, paper.Paper("hits"), device, x / x[-1], y / y[-1], rng)
    return Printed(make("print.tif", codes, ppi), rebate_d, highlight_d)


def _within(at: np.ndarray, length_mm: float, inset_mm: float) -> np.ndarray:
    return np.flatnonzero((at > inset_mm) & (at < length_mm - inset_mm))


def _tones(y, x, highlight_d: float, sky: bool, rng: np.random.Generator) -> np.ndarray:
    """Soft blotches of every tone; above them the sky, plain but for its mottle."""
    from scipy.ndimage import map_coordinates

    def field(blotch_mm: float) -> np.ndarray:
        made = fields.gaussian(_HIGH_MM, _WIDE_MM, blotch_mm, rng)
        where = np.meshgrid(y * fields.PX_PER_MM, x * fields.PX_PER_MM, indexing="ij")
        return map_coordinates(made, where, order=1, mode="nearest")

    tones = 0.25 + 1.5 / (1 + np.exp(-1.4 * field(4.0)))
    if sky:
        tones[y < _SKY_MM] = highlight_d + 0.006 * field(1.2)[y < _SKY_MM]
    return tones
