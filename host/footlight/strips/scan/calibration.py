"""From scanner codes to reflectance: by sRGB, by a linear scan, or by patches of known density.

A calibration is a table from code to reflectance for each channel, so that a pixel costs one look-up.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from footlight.strips.errors import ScanError
from footlight.strips.scan.scan import Scan

LUMINANCE = (0.2126, 0.7152, 0.0722)  # IEC 61966-2-1
LEAST_PATCHES = 2
_FLATTEST = 0.2  # of the middle slope between patches; flare leaves half of it at 2.2 D
_LEAST_REFLECTANCE = 1e-5


@dataclass(frozen=True)
class Calibration:
    """tables: code → reflectance, one a channel. how: in words. range_d: of the patches [D], or None."""

    tables: tuple[NDArray, ...]
    how: str
    uncertainty_d: float
    range_d: tuple[float, float] | None = None
    notes: tuple[str, ...] = ()


def srgb_to_linear(code: NDArray) -> NDArray:
    """sRGB value 0 … 1 to linear (IEC 61966-2-1)."""
    return np.where(code <= 0.04045, code / 12.92, ((code + 0.055) / 1.055) ** 2.4)


def density(reflectance: NDArray | float) -> NDArray:
    """−log10 of reflectance [D] (ISO 5)."""
    return -np.log10(np.maximum(reflectance, _LEAST_REFLECTANCE))


def by_encoding(scan: Scan, linear: bool = False) -> Calibration:
    """What the codes say by themselves: sRGB, or proportional to light."""
    codes = np.arange(1 << scan.bits) / ((1 << scan.bits) - 1)
    table = np.maximum(codes if linear else srgb_to_linear(codes), _LEAST_REFLECTANCE).astype(np.float32)
    how = "as if the scan were linear" if linear else "as if the scan were sRGB"
    note = (
        f"densities {how}, with no patch of known density: scanners bend their scale and add flare, so blacks"
        " may be wrong by 0.3 D; differences near white are better. Lay a grey tablet beside the strip"
    )
    return Calibration((table,) * scan.channels, how, 0.1, None, (note,))


def by_patches(base: Calibration, values: NDArray, densities_d: NDArray, name: str) -> Calibration:
    """Through patches of known density.

    values: (patches, channels) mean reflectance of each patch by `base`. densities_d: as measured or given
    [D]. Two patches: gain and flare. More: monotone interpolation of density over log value, straight beyond.
    Raises ScanError for patches out of order or alike.
    """
    order = np.argsort(densities_d)
    values, known = values[order], np.asarray(densities_d, float)[order]
    if len(known) < LEAST_PATCHES or np.any(np.diff(known) < 0.01):
        raise ScanError(f"{name}: patches need two or more densities, 0.01 D apart at least")
    if np.any(np.diff(values, axis=0) >= 0):
        raise ScanError(
            f"{name}: the patches do not darken as their densities say; check their order and place, that"
            " light paper lies about them, and that the scanner's black is not clipped"
        )
    slopes = np.diff(-np.log10(values), axis=0) / np.diff(known)[:, None]
    if len(known) > LEAST_PATCHES and np.any(slopes < _FLATTEST * np.median(slopes, axis=0)):
        raise ScanError(
            f"{name}: two patches look alike and are not: the scanner clipped, or they lie elsewhere; scan"
            " again without automatic contrast"
        )
    bend = _two_points if len(known) == LEAST_PATCHES else _curve
    tables = tuple(bend(table, values[:, k], known) for k, table in enumerate(base.tables))
    kind = "a white and a black patch" if len(known) == LEAST_PATCHES else f"{len(known)} patches"
    uncertainty = 0.03 if len(known) == LEAST_PATCHES else 0.02
    return Calibration(tables, f"by {kind}", uncertainty, (float(known[0]), float(known[-1])))


def _two_points(table: NDArray, values: NDArray, known: NDArray) -> NDArray:
    reflectance = 10.0**-known
    gain = (reflectance[0] - reflectance[-1]) / (values[0] - values[-1])
    bent = reflectance[-1] + gain * (table - values[-1])
    return np.maximum(bent, _LEAST_REFLECTANCE).astype(np.float32)


def _curve(table: NDArray, values: NDArray, known: NDArray) -> NDArray:
    from scipy.interpolate import PchipInterpolator

    at = -np.log10(values)
    inner = PchipInterpolator(at, known)
    wanted = -np.log10(table)
    bent = inner(np.clip(wanted, at[0], at[-1]))
    slopes = np.diff(known) / np.diff(at)
    bent += slopes[0] * np.minimum(0, wanted - at[0]) + slopes[-1] * np.maximum(0, wanted - at[-1])
    return np.maximum(10.0 ** -np.clip(bent, -0.3, 5), _LEAST_REFLECTANCE).astype(np.float32)
