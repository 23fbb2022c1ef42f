"""A simulated flatbed scanner: a strip, a grey tablet, a lid; skew, flare, uneven light, noise, 8 bits."""

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from footlight.strips.find.place import Place
from footlight.strips.scan.scan import Scan, make
from footlight.strips.simulated import fields
from footlight.strips.simulated.paper import ROWS, SATURATED_VEIL_D, Paper

TABLET_D = (0.06, 0.20, 0.35, 0.50, 0.70, 0.90, 1.10, 1.30, 1.50, 1.70, 1.90, 2.10)
_PENUMBRA_MM = 0.5


@dataclass(frozen=True)
class Scanner:
    """ppi [1/in]; skew_deg; flare: light that reaches every pixel, as a share of white; uneven: fall of light
    from middle to corner, as a share; noise: of white, and its share that grows with light; lid_d [D]."""

    ppi: float = 300.0
    bits: int = 16
    channels: int = 1
    skew_deg: float = 0.0
    flare: float = 0.002
    uneven: float = 0.02
    noise: float = 0.0003
    lid_d: float = 0.30
    linear: bool = False
    tablet_d: tuple[float, ...] = TABLET_D
    margin_mm: float = 7.0


@dataclass(frozen=True)
class Sheet:
    """A strip as it lies: doses of its steps [stops, −inf: zero], edges [mm], bands, drops (x, y, r) [mm].

    levels_d: density of each step of each band [D], in place of what the paper would make of the doses.
    """

    stops: tuple[float, ...]
    step_mm: float = 14.0
    band_mm: float = 14.0
    bands: tuple[str, ...] = ROWS
    edges_mm: tuple[float, ...] = ()
    drops: tuple[tuple[float, float, float], ...] = ()
    levels_d: tuple[tuple[float, ...], ...] = ()

    @property
    def edges(self) -> NDArray:
        """All edges along the strip, ends included [mm]."""
        if self.edges_mm:
            return np.array(self.edges_mm)
        return self.step_mm * np.arange(len(self.stops) + 1)

    @property
    def width_mm(self) -> float:
        """Across the bands [mm]."""
        return self.band_mm * len(self.bands)


@dataclass(frozen=True)
class Scanned:
    """A scan, and the truth about it: where the strip lies, its halide field, the tablet's densities."""

    scan: Scan
    place: Place
    tablet_d: tuple[float, ...]
    density_d: NDArray | None = field(default=None, repr=False)


def scan(
    paper: Paper, sheet: Sheet, scanner: Scanner, rng: np.random.Generator, keep: bool = False
) -> Scanned:
    """Scan a strip of a paper. keep: give the noise-free densities of the whole scan too."""
    place, tablet, size_mm = _laid(sheet, scanner)
    shape = tuple(int(round(n * scanner.ppi / 25.4)) for n in size_mm[::-1])
    y, x = ((np.arange(n) + 0.5) * 25.4 / scanner.ppi for n in shape)
    density = np.full(shape, scanner.lid_d, np.float32)
    on_strip = _put(density, x, y, place, _strip_density(paper, sheet, rng))
    if tablet is not None:
        _put(density, x, y, tablet, _tablet_density(tablet, scanner.tablet_d))
    codes = scanned_codes(density, paper, scanner, x / size_mm[0], y / size_mm[1], rng, on_strip)
    made = make("simulated.tif", codes, scanner.ppi)
    return Scanned(made, place, scanner.tablet_d, density if keep else None)


def _laid(sheet: Sheet, scanner: Scanner) -> tuple[Place, Place | None, NDArray]:
    """The strip above, the tablet below it, both turned by the skew; the size of the scan [mm]."""
    angle = np.radians(scanner.skew_deg)
    along = np.array([np.cos(angle), np.sin(angle)])
    across = np.array([-along[1], along[0]])
    length, width = float(sheet.edges[-1]), sheet.width_mm
    deep = width + (5.0 + 10.0 if scanner.tablet_d else 0.0)
    corners = np.array([0 * along, length * along, deep * across, length * along + deep * across])
    origin = scanner.margin_mm - corners.min(axis=0)
    size = np.ptp(corners, axis=0) + 2 * scanner.margin_mm
    strip = Place(origin, along, across, length, width)
    if not scanner.tablet_d:
        return strip, None, size
    tablet = Place(strip.at(0.0, width + 5.0), along, across, min(length, 8.0 * len(scanner.tablet_d)), 10.0)
    return strip, tablet, size


def _put(density: NDArray, x: NDArray, y: NDArray, place: Place, of) -> NDArray:
    """Fill the pixels of a piece with `of(along, across)` -> which pixels are the piece's."""
    dx, dy = x - place.origin_mm[0], y - place.origin_mm[1]
    along = dx[None, :] * place.along[0] + dy[:, None] * place.along[1]
    across = dx[None, :] * place.across[0] + dy[:, None] * place.across[1]
    on = (along >= 0) & (along < place.length_mm) & (across >= 0) & (across < place.width_mm)
    density[on] = of(along[on], across[on])
    return on


def _tablet_density(tablet: Place, known_d: tuple[float, ...]):
    def of(along: NDArray, across: NDArray) -> NDArray:
        del across
        patch = np.clip(along / tablet.length_mm * len(known_d), 0, len(known_d) - 1).astype(int)
        return np.array(known_d)[patch]

    return of


def _strip_density(paper: Paper, sheet: Sheet, rng: np.random.Generator):
    """Densities by place on the strip: one field of halide for the whites, one of development for blacks."""
    length, width = float(sheet.edges[-1]), sheet.width_mm
    left = fields.halide(fields.gaussian(width, length, paper.blotch_mm, rng), paper.cv)
    worked = fields.gaussian(width, length, 1.5, rng)
    grid = np.arange(0, length + 0.05, 0.05)
    dose = _doses(grid, sheet)

    def of(along: NDArray, across: NDArray) -> NDArray:
        found = np.empty_like(along)
        row = np.clip(across / sheet.band_mm, 0, len(sheet.bands) - 1).astype(int)
        where = (across * fields.PX_PER_MM, along * fields.PX_PER_MM)
        halide, blotch = _sampled(left, where), _sampled(worked, where)
        for index, band in enumerate(sheet.bands):
            mine = row == index
            mean = np.interp(along[mine], grid, _levels(paper, sheet, index, grid, dose))
            if sheet.levels_d or band == "black":
                found[mine] = mean + paper.black_mottle_d * blotch[mine]
            elif band == "grey":
                found[mine] = np.maximum(mean, paper.grey_d) + paper.black_mottle_d * blotch[mine]
            else:
                found[mine] = paper.base_d + _saturated(mean * halide[mine])
        return _with_drops(found, along, across, sheet)

    return of


def _sampled(values: NDArray, where) -> NDArray:
    from scipy.ndimage import map_coordinates

    return map_coordinates(values.astype(np.float32), where, order=1, mode="nearest")


def _with_drops(found: NDArray, along: NDArray, across: NDArray, sheet: Sheet) -> NDArray:
    for x, y, radius in sheet.drops:
        away = np.hypot(along - x, across - y)
        found = found + 0.12 * (away < radius) + 0.10 * (np.abs(away - radius) < 0.25)
    return found


def _doses(grid: NDArray, sheet: Sheet) -> NDArray:
    """Dose along the strip as light, not stops, with soft edges."""
    levels = np.array([0.0 if np.isinf(s) else 2.0**s for s in sheet.stops])
    inner = sheet.edges[1:-1]
    places = np.concatenate([[0], np.repeat(inner, 2), [sheet.edges[-1]]])
    places[1:-1] += np.tile([-_PENUMBRA_MM / 2, _PENUMBRA_MM / 2], len(inner))
    return np.interp(grid, places, np.repeat(levels, 2))


def _levels(paper: Paper, sheet: Sheet, index: int, grid: NDArray, dose: NDArray) -> NDArray:
    """Mean density along a band [D]; of whites, the mean veil."""
    if not sheet.levels_d:
        return _band(paper, sheet.bands[index], dose)
    step = np.clip(np.searchsorted(sheet.edges, grid, side="right") - 1, 0, len(sheet.stops) - 1)
    return np.array(sheet.levels_d[index])[step]


def _band(paper: Paper, band: str, dose: NDArray) -> NDArray:
    stops = np.log2(np.maximum(dose, 1e-12))
    if band in ("black", "grey"):
        return paper.black_d(stops) if band == "black" else 0.95 * paper.black_d(stops)
    return paper.veil_d(stops) * (paper.second_white if band == "white2" else 1.0)


def _saturated(veil_d: NDArray) -> NDArray:
    """Small veils as they are, large ones held below SATURATED_VEIL_D."""
    return veil_d / np.cbrt(1 + (np.minimum(veil_d, 1e3) / SATURATED_VEIL_D) ** 3)


def scanned_codes(
    density: NDArray,
    paper: Paper,
    scanner: Scanner,
    x: NDArray,
    y: NDArray,
    rng,
    on_paper: NDArray | float = 1.0,
) -> NDArray:
    """Codes: grain, flare, uneven light, noise, encoding, coarseness. on_paper: where its stain lies."""
    grain = paper.grain_d * scanner.ppi / 300 * rng.standard_normal(density.shape, dtype=np.float32)
    fall = 1 - scanner.uneven * ((2 * x[None, :] - 1) ** 2 + (2 * y[:, None] - 1) ** 2) / 2
    planes = []
    for channel in range(scanner.channels):
        stain = np.asarray(on_paper, np.float32) * np.float32(paper.stain_d if channel == 2 else 0)
        light = (10.0 ** -(density + grain + stain) + scanner.flare) / (1 + scanner.flare) * fall
        shot = (
            scanner.noise * (1 + 10 * np.sqrt(light)) * rng.standard_normal(density.shape, dtype=np.float32)
        )
        planes.append(_encoded(light + shot, scanner))
    return planes[0] if scanner.channels == 1 else np.stack(planes, axis=-1)


def _encoded(light: NDArray, scanner: Scanner) -> NDArray:
    light = np.clip(light, 0, 1)
    if not scanner.linear:
        light = np.where(light <= 0.0031308, 12.92 * light, 1.055 * light ** (1 / 2.4) - 0.055)
    return np.round(light * ((1 << scanner.bits) - 1)).astype(np.uint16 if scanner.bits == 16 else np.uint8)
