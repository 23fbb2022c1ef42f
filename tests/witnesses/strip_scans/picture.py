"""Strip and tablet on the glass: the reflectances before the scanner sees them, and where all lies."""

from dataclasses import dataclass

import numpy as np
from PIL import Image
from tests.witnesses.strip_scans import blemishes, layers
from tests.witnesses.strip_scans.beds import Bed, Tablet
from tests.witnesses.strip_scans.layers import Layer, Place
from tests.witnesses.strip_scans.scenario import Scenario
from tests.witnesses.strip_scans.strip import PAD_MM, Cell, pitch_mm, strip


@dataclass(frozen=True)
class Picture:
    """Reflectance of the whole glass, where the strip is (0 to 1), and the truth [mm from the left top]."""

    light: np.ndarray
    on_strip: np.ndarray
    corners_mm: np.ndarray
    patches_mm: np.ndarray
    cells: tuple[Cell, ...]


def picture(scenario: Scenario, rng: np.random.Generator) -> Picture:
    """Lay everything down, in the order of the hand."""
    px_per_mm = scenario.scanner.ppi / 25.4
    piece, cells = strip(scenario, rng)
    wedge, middles = tablet_layer(scenario.tablet, scenario.bed, pitch_mm(scenario))
    places = _places(scenario, piece.size_mm, wedge.size_mm)
    outline = [layers.corners(piece.size_mm, places[0]), layers.corners(wedge.size_mm, places[1])]
    size, (strip_place, wedge_place) = _shift(outline, places, scenario.bed)
    light = _surround(scenario.bed, outline, size, px_per_mm, rng)
    layers.lay(light, wedge, wedge_place, px_per_mm)
    on_strip = layers.lay(light, piece, strip_place, px_per_mm)
    blemishes.spoil(light, on_strip, scenario, px_per_mm, rng)
    x, y = wedge_place.at(middles, np.zeros_like(middles))
    return Picture(
        light,
        on_strip,
        layers.corners(piece.size_mm, strip_place),
        np.stack([x, y], axis=1),
        cells,
    )


def tablet_layer(tablet: Tablet, bed: Bed, pitch: float) -> tuple[Layer, np.ndarray]:
    """The tablet as a piece, and the middles of its patches along it, about its own middle [mm]."""
    widths, gap, border = np.array(tablet.widths_mm), tablet.gap_mm, tablet.border_mm
    starts = border + np.concatenate([[0], (widths + gap).cumsum()[:-1]])
    length = starts[-1] + widths[-1] + border
    height = tablet.height_mm + 2 * border
    pad = round(PAD_MM / pitch)
    u = (np.arange(round(length / pitch) + 2 * pad) - pad + 0.5) * pitch
    v = (np.arange(round(height / pitch) + 2 * pad) - pad + 0.5) * pitch
    row = np.full(len(u), tablet.border_d)
    row[(u > border) & (u < length - border)] = tablet.gap_d
    for start, width, density in zip(starts, widths, tablet.true_d, strict=True):
        row[(u >= start) & (u < start + width)] = density
    inside = (v >= border) & (v < height - border)
    light = 10.0 ** -np.where(inside[:, None], row[None, :], tablet.border_d)
    size = (len(u) * pitch - 2 * pad * pitch, len(v) * pitch - 2 * pad * pitch)
    edges = layers.distances(u, v, size, np.zeros((4, 3)))
    cover, shade = layers.cover_and_shade(edges, max(0.09, pitch), bed.shadow, bed.shadow_mm)
    return Layer(light.astype(np.float32), cover, shade, pitch, pad * pitch), starts + widths / 2 - length / 2


def _places(
    scenario: Scenario, strip_mm: tuple[float, float], wedge_mm: tuple[float, float]
) -> tuple[Place, Place]:
    """The strip about the origin, the tablet beside it or at its end, never over it."""
    tablet, skew = scenario.tablet, scenario.bed.skew_deg
    lean = np.radians(abs(tablet.skew_deg))
    at_end = tablet.place == "end"
    turn = (180 if tablet.turned else 0) + (90 if at_end else 0) + tablet.skew_deg
    slack = np.sin(lean) * wedge_mm[0] / 2
    side = strip_mm[0 if at_end else 1] / 2 + wedge_mm[1] / 2 + tablet.away_mm + slack
    across, down = (side, 0.0) if at_end else (0.0, -side if tablet.place == "above" else side)
    if not at_end:
        across = (strip_mm[0] - wedge_mm[0]) / 2 * np.sin(7.0 * scenario.seed)
    whole = Place(0.0, 0.0, skew)
    x, y = whole.at(np.array([across]), np.array([down]))
    return whole, Place(float(x[0]), float(y[0]), skew + turn)


def _shift(
    outline: list[np.ndarray], places: tuple[Place, Place], bed: Bed
) -> tuple[tuple[float, float], list[Place]]:
    """The picture's size [mm] with its margins, and the places in it."""
    points = np.concatenate(outline)
    left, top, right, bottom = bed.margins_mm
    low = points.min(axis=0) - [left, top]
    high = points.max(axis=0) + [right, bottom]
    for part in outline:
        part -= low
    moved = [Place(place.x_mm - low[0], place.y_mm - low[1], place.angle_deg) for place in places]
    return (float(high[0] - low[0]), float(high[1] - low[1])), moved


def _surround(
    bed: Bed,
    outline: list[np.ndarray],
    size_mm: tuple[float, float],
    px_per_mm: float,
    rng: np.random.Generator,
) -> np.ndarray:
    """The sheet or lid under everything, not quite even, and where it ends the lid's border."""
    width, height = (round(side * px_per_mm) for side in size_mm)
    coarse = rng.normal(0, bed.mottled_d, (max(2, int(size_mm[1] / 3)), max(2, int(size_mm[0] / 3))))
    cloud = np.asarray(
        Image.fromarray(coarse.astype(np.float32)).resize((width, height), Image.Resampling.BICUBIC)
    )
    light = np.float32(10**-bed.surround_d) * (1 - np.float32(np.log(10)) * cloud)
    if bed.lid_d is None:
        return light
    points = np.concatenate(outline)
    tone = np.float32(10**-bed.lid_d)
    left, top = (points.min(axis=0) - bed.lid_mm[:2]) * px_per_mm
    right, bottom = (points.max(axis=0) + bed.lid_mm[2:]) * px_per_mm
    light[:, : int(max(0, left))] = tone
    light[:, int(min(width, right)) :] = tone
    light[: int(max(0, top))] = tone
    light[int(min(height, bottom)) :] = tone
    return light
