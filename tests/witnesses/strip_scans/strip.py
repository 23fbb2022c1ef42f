"""The strip itself: light that adds up under a moved blade, the paper's answer, the truth of each cell."""

from dataclasses import dataclass

import numpy as np
from tests.witnesses.strip_scans import fields, layers
from tests.witnesses.strip_scans.fields import Spectrum
from tests.witnesses.strip_scans.layers import Layer
from tests.witnesses.strip_scans.papers import Cleared, Paper
from tests.witnesses.strip_scans.scenario import Scenario, Sheet

PAD_MM = 2.0
NEVER = -17.0
LOOK_UP = np.linspace(NEVER - 1, 9, 8001)


@dataclass(frozen=True)
class Cell:
    """What one cell really is: density of its mean reflectance [D], and its own mottle there [D]."""

    band: str
    step: int
    dose_s: float
    density_d: float
    mottle_d: float


@dataclass(frozen=True)
class _Grid:
    """Middles of the points of the strip, from its zero end and first band [mm]."""

    u_mm: np.ndarray
    v_mm: np.ndarray
    pitch_mm: float


def pitch_mm(scenario: Scenario) -> float:
    """Fine enough for the scan, or for a tenth of a millimetre."""
    area = scenario.sheet.length_mm * scenario.sheet.width_mm
    return max(1 / 8 if area > 20_000 else 1 / 12, 25.4 / scenario.scanner.ppi)


def strip(scenario: Scenario, rng: np.random.Generator) -> tuple[Layer, tuple[Cell, ...]]:
    """The strip as a piece to lay on the glass, and the truth of its cells."""
    sheet, pitch = scenario.sheet, pitch_mm(scenario)
    grid = _Grid(
        np.arange(pitch / 2, sheet.length_mm, pitch), np.arange(pitch / 2, sheet.width_mm, pitch), pitch
    )
    density = _density(scenario, grid, rng)
    cells = _cells(scenario, density, grid)
    light = _surface(10.0**-density, scenario.paper, pitch, rng)
    if sheet.in_pieces:
        return _pieces(scenario, light, grid, rng), cells
    return _piece(scenario, light, grid, rng), cells


def _stops(scenario: Scenario, grid: _Grid) -> np.ndarray:
    """Dose at each point [stop about the centre]: each move of the blade adds light to what is still open."""
    sheet, doses = scenario.sheet, np.array(scenario.design.doses_s) / scenario.design.centre_s
    given = np.zeros((len(grid.v_mm), len(grid.u_mm)), np.float32)
    middle = grid.v_mm[:, None] - sheet.width_mm / 2
    for edge, tilt, more in zip(sheet.step_edges_mm, sheet.step_tilts_deg, np.diff(doses), strict=True):
        slant = 0.0 if sheet.in_pieces else np.tan(np.radians(tilt))
        reach = abs(slant) * sheet.width_mm / 2 + sheet.penumbra_mm
        first, last = np.searchsorted(grid.u_mm, [edge - reach, edge + reach])
        near = grid.u_mm[None, first:last] - edge - slant * middle
        given[:, first:last] += more * np.clip(near / sheet.penumbra_mm + 0.5, 0, 1)
        given[:, last:] += more
    stops = np.log2(np.maximum(given, 2.0**NEVER))
    across = (grid.u_mm - sheet.length_mm / 2) ** 2
    off = (across[None, :] + middle**2) / sheet.lens_mm**2
    return stops - 2 * np.log2(1 + off.astype(np.float32))


def _density(scenario: Scenario, grid: _Grid, rng: np.random.Generator) -> np.ndarray:
    sheet, paper = scenario.sheet, scenario.paper
    stops = _stops(scenario, grid)
    total = paper.formation_d * fields.gaussian(Spectrum("bell", 3.0), stops.shape, grid.pitch_mm, rng)
    total += paper.base_d
    edges = [None, *zip(sheet.band_edges_mm, sheet.band_tilts_deg, strict=True), None]
    for band, above, below in zip(sheet.bands, edges[:-1], edges[1:], strict=True):
        low = 0.0 if above is None else above[0] - 2.5
        high = sheet.width_mm if below is None else below[0] + 2.5
        first, last = np.searchsorted(grid.v_mm, [low, high])
        share = 1.0 if above is None else _ramp(grid, first, last, above, sheet)
        share = share - (0.0 if below is None else _ramp(grid, first, last, below, sheet))
        total[first:last] += share * _band(band, paper, stops[first:last], grid.pitch_mm, rng)
    return total


def _ramp(grid: _Grid, first: int, last: int, edge: tuple[float, float], sheet: Sheet) -> np.ndarray:
    """0 before an edge between bands, 1 after it."""
    rows = grid.v_mm[first:last, None]
    slant = np.tan(np.radians(edge[1])) * (grid.u_mm[None, :] - sheet.length_mm / 2)
    return np.clip((rows - edge[0] - slant) / sheet.penumbra_mm + 0.5, 0, 1).astype(np.float32)


def _band(band: str, paper: Paper, stops: np.ndarray, pitch: float, rng: np.random.Generator) -> np.ndarray:
    """Density above base of a whole band, were it alone [D]."""
    if band in ("white", "white2"):
        return _cleared(paper.white if band == "white" else paper.white2, stops, pitch, rng)
    share, late = (1.0, 0.0) if band == "black" else (paper.grey_share, paper.grey_late_stops)
    rise = np.interp(stops, LOOK_UP, share * paper.black.density_d(LOOK_UP - late))
    field = fields.gaussian(Spectrum("bell", 4.0), stops.shape, pitch, rng)
    return rise * (1 + paper.black_spread * field)


def _cleared(cleared: Cleared, stops: np.ndarray, pitch: float, rng: np.random.Generator) -> np.ndarray:
    veil = np.interp(stops, LOOK_UP, cleared.white.veil_d(LOOK_UP))
    field = fields.gaussian(cleared.spectrum, stops.shape, pitch, rng)
    return veil * fields.lognormal(field, cleared.point_share)


def _surface(light: np.ndarray, paper: Paper, pitch: float, rng: np.random.Generator) -> np.ndarray:
    """Pebbles of lustre and tooth of matt paper: facets that reflect more or less, the mean kept."""
    if not paper.texture:
        return light.astype(np.float32)
    tile = fields.periodic(Spectrum("ring", 0.35 * paper.texture_mm), (512, 512), pitch, rng)
    repeats = [side // 512 + 1 for side in light.shape]
    field = np.tile(tile, repeats)[: light.shape[0], : light.shape[1]].astype(np.float32)
    seen = light * (1 + 0.3 * paper.texture * field) + 0.008 * paper.texture * (field**2 - 1)
    return np.maximum(seen, 1e-3).astype(np.float32)


def _cells(scenario: Scenario, density: np.ndarray, grid: _Grid) -> tuple[Cell, ...]:
    sheet, doses = scenario.sheet, scenario.design.doses_s
    across = [0.0, *sheet.step_edges_mm, sheet.length_mm]
    down = [0.0, *sheet.band_edges_mm, sheet.width_mm]
    cells = []
    for row, band in enumerate(sheet.bands):
        for step, dose in enumerate(doses):
            part = density[_inner(down, row, grid.v_mm), _inner(across, step, grid.u_mm)]
            cells.append(_cell(band, step, dose, part, grid.pitch_mm))
    return tuple(cells)


def _inner(edges: list[float], number: int, places_mm: np.ndarray) -> slice:
    """A cell without the millimetre beside its edges."""
    first, last = np.searchsorted(places_mm, [edges[number] + 1.0, edges[number + 1] - 1.0])
    return slice(int(first), int(last))


def _cell(band: str, step: int, dose_s: float, part: np.ndarray, pitch: float) -> Cell:
    mean = float(-np.log10(np.mean(10.0**-part)))
    sides = [side * pitch for side in part.shape]
    down, across = (min(10, int(side / fields.TILE_MM)) for side in sides)
    if down * across < 6:
        return Cell(band, step, dose_s, mean, float("nan"))
    most = round((fields.FIELD_MM + fields.TILE_MM) / pitch)
    middle = part[_middle(part.shape[0], most), _middle(part.shape[1], most)]
    return Cell(band, step, dose_s, mean, fields.own_mottle(middle, pitch, (down, across)))


def _middle(side: int, most: int) -> slice:
    start = max(0, (side - most) // 2)
    return slice(start, start + min(side, most))


def _piece(scenario: Scenario, light: np.ndarray, grid: _Grid, rng: np.random.Generator) -> Layer:
    """A whole piece with its outline, on a pad that holds its shadow."""
    pad = round(PAD_MM / grid.pitch_mm)
    u = (np.arange(len(grid.u_mm) + 2 * pad) - pad + 0.5) * grid.pitch_mm
    v = (np.arange(len(grid.v_mm) + 2 * pad) - pad + 0.5) * grid.pitch_mm
    size = (len(grid.u_mm) * grid.pitch_mm, len(grid.v_mm) * grid.pitch_mm)
    wobble = np.stack([np.full(4, scenario.sheet.wobble_mm), rng.uniform(0.5, 2, 4), rng.uniform(0, 6, 4)], 1)
    wobble[:, 0] = np.abs(wobble[:, 0]) * rng.uniform(0.3, 1, 4)
    inside = layers.distances(u, v, size, wobble)
    bed = scenario.bed
    cover, shade = layers.cover_and_shade(inside, max(0.09, grid.pitch_mm), bed.shadow, bed.shadow_mm)
    padded = np.pad(light, pad, mode="edge")
    if bed.white_edge:
        near = np.clip(1 - np.minimum.reduce([np.broadcast_to(d, padded.shape) for d in inside]) / 0.12, 0, 1)
        padded += bed.white_edge * near.astype(np.float32) * np.maximum(0.75 - padded, 0)
    return Layer(padded, cover, shade, grid.pitch_mm, pad * grid.pitch_mm)


def _pieces(scenario: Scenario, light: np.ndarray, grid: _Grid, rng: np.random.Generator) -> Layer:
    """Cut apart at the steps, each piece exposed alone, laid together again with narrow gaps."""
    ends = [0, *np.searchsorted(grid.u_mm, scenario.sheet.step_edges_mm), len(grid.u_mm)]
    gaps = np.round(rng.uniform(0.15, 0.9, len(ends) - 2) / grid.pitch_mm).astype(int)
    offs = np.round(np.clip(rng.normal(0, 0.25, len(ends) - 1), -0.6, 0.6) / grid.pitch_mm).astype(int)
    parts = []
    for first, last in zip(ends[:-1], ends[1:], strict=True):
        narrow = _Grid(grid.u_mm[first:last] - grid.u_mm[first], grid.v_mm, grid.pitch_mm)
        parts.append(_piece(scenario, light[:, first:last], narrow, rng))
    return _joined(parts, [0, *gaps], offs)


def _joined(parts: list[Layer], gaps: list[int], offs: np.ndarray) -> Layer:
    pad = round(parts[0].pad_mm / parts[0].pitch_mm)
    inner = [part.cover.shape[1] - 2 * pad for part in parts]
    shape = (parts[0].cover.shape[0], sum(inner) + sum(gaps) + 2 * pad)
    light, cover, shade = (np.full(shape, fill, np.float32) for fill in (1.0, 0.0, 1.0))
    left = 0
    for part, width, gap, off in zip(parts, inner, gaps, offs, strict=True):
        left += gap
        columns = slice(left, left + width + 2 * pad)
        own = np.roll(part.cover, off, axis=0)
        shade[:, columns] *= np.roll(part.shade, off, axis=0)
        light[:, columns] = np.where(own > 0, np.roll(part.light, off, axis=0), light[:, columns])
        cover[:, columns] = np.maximum(cover[:, columns], own)
        left += width
    return Layer(light, cover, shade, parts[0].pitch_mm, parts[0].pad_mm)
