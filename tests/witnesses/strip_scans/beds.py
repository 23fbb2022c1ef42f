"""What lies on the glass beside the strip, what spoils the view, and the scanner: drawn from a seed."""

from dataclasses import dataclass

import numpy as np

# Surround -> its density [D], share of the scans.
SURROUNDS = {
    "white": ((0.04, 0.12), 0.30),
    "light": ((0.12, 0.25), 0.20),
    "grey": ((0.25, 0.50), 0.16),
    "dark": ((0.50, 1.20), 0.14),
    "black": ((1.20, 1.85), 0.20),
}
# The gamma of the file: as sRGB, a power, proportional to light (--linear), or CIE lightness.
ENCODINGS = {"srgb": 0.60, "2.2": 0.13, "1.8": 0.09, "linear": 0.12, "lightness": 0.06}
# File kind -> share.
FILES = {"tif16": 0.62, "tif8": 0.05, "png16": 0.09, "png8": 0.04, "jpg": 0.20}


@dataclass(frozen=True)
class Tablet:
    """A reflection step tablet: densities as typed and as they are [D], sizes [mm], where it lies."""

    typed_d: tuple[float, ...]
    true_d: tuple[float, ...]
    widths_mm: tuple[float, ...]
    gap_mm: float
    gap_d: float
    height_mm: float
    border_mm: float
    border_d: float
    order: str
    place: str
    away_mm: float
    turned: bool
    skew_deg: float


@dataclass(frozen=True)
class Bed:
    """Surround, lid and how the whole lies: skew [degree], quarter turns, margins [mm]."""

    surround: str
    surround_d: float
    mottled_d: float
    lid_d: float | None
    lid_mm: tuple[float, float, float, float]
    margins_mm: tuple[float, float, float, float]
    skew_deg: float
    quarter_turns: int
    shadow: tuple[float, float, float, float]
    shadow_mm: float
    white_edge: float


@dataclass(frozen=True)
class Blemishes:
    """How many of each, and how strong."""

    dust: int
    hairs: int
    drops: int
    ring_share: float


@dataclass(frozen=True)
class Scanner:
    """Resolution, unevenness (peak to peak, share), drift, noise, flare, gamma and file."""

    ppi: int
    colour: bool
    uneven: float
    gain: float
    drift: float
    streaks: float
    noise: float
    flare: float
    near_flare: float
    encoding: str
    file: str
    quality: int
    writes_ppi: bool


def _densities(count: int, rng: np.random.Generator) -> np.ndarray:
    """Rising, to 0.01 D as one types them."""
    least, most = rng.uniform(0.04, 0.09), rng.uniform(1.5, 2.2)
    draw = rng.uniform()
    if draw < 0.35:
        step = float(rng.choice([0.10, 0.15]))
        step = max(step, 1.35 / (count - 1)) if least + step * (count - 1) < 1.4 else step
        step = min(step, 2.2 / (count - 1))
        rows = 0.05 + step * np.arange(count)
    elif draw < 0.65:
        rows = np.linspace(least, most, count)
    elif draw < 0.85:
        rows = least + (most - least) * np.linspace(0, 1, count) ** rng.uniform(1.1, 1.5)
    else:
        parts = rng.uniform(0.5, 1.5, count - 1)
        rows = least + (most - least) * np.concatenate([[0], parts.cumsum() / parts.sum()])
    return np.maximum(np.round(rows, 2), 0.05 + 0.03 * np.arange(count))


def tablet(length_mm: float, rng: np.random.Generator) -> Tablet:
    """One of 5 to 24 patches that is not much longer than the strip."""
    count = min(int(rng.integers(5, 25)), int(length_mm * 1.05 / 4.6))
    typed = np.round(_densities(count, rng), 2)
    order = str(rng.choice(["rising", "falling", "mixed"], p=[0.6, 0.25, 0.15]))
    typed = {"rising": typed, "falling": typed[::-1], "mixed": rng.permutation(typed)}[order]
    gap = float(rng.choice([0.0, rng.uniform(0.4, 1.5)], p=[0.65, 0.35]))
    widest = min(12.0, length_mm * 1.05 / count - gap)
    widths = np.full(count, rng.uniform(max(4.0, 0.6 * widest), max(widest, 4.1)))
    if rng.uniform() < 0.10:
        widths[[0, -1]] *= 1.3
    return Tablet(
        tuple(float(density) for density in typed),
        tuple(float(density) for density in typed + rng.normal(0, 0.004, count)),
        tuple(float(width) for width in widths),
        gap,
        float(rng.choice([0.06, 0.5, 1.7])),
        float(rng.uniform(8, 18)),
        float(rng.choice([0.0, rng.uniform(1.5, 5)], p=[0.5, 0.5])),
        float(rng.choice([0.06, 0.4, 0.75, 1.65])),
        order,
        str(rng.choice(["below", "above", "end"], p=[0.5, 0.35, 0.15])),
        float(rng.choice([5.0, rng.uniform(2.5, 14)])),
        bool(rng.uniform() < 0.35),
        float(rng.choice([rng.normal(0, 0.7), rng.uniform(-4, 4)], p=[0.8, 0.2])),
    )


def bed(rng: np.random.Generator) -> Bed:
    surround = str(rng.choice(list(SURROUNDS), p=[row[1] for row in SURROUNDS.values()]))
    skew = float(rng.choice([rng.normal(0, 1.3), rng.uniform(-10, 10)], p=[0.65, 0.35]))
    lid = float(rng.choice([0.12, rng.uniform(1.2, 1.9)], p=[0.3, 0.7])) if rng.uniform() < 0.28 else None
    # How far the lid's edge stays from what lies nearest to it on each side; inf: not in the picture.
    sides = np.where(rng.uniform(size=4) < 0.5, rng.uniform(-0.8, 8, 4), np.inf)
    light_from = np.clip(rng.normal(0.10, 0.10, 4), 0.0, 0.45)
    return Bed(
        surround,
        float(rng.uniform(*SURROUNDS[surround][0])),
        float(rng.uniform(0.0005, 0.006)),
        lid,
        _four(sides),
        _four(rng.uniform(3, 18, 4)),
        skew,
        int(rng.choice([0, 1, 2, 3], p=[0.55, 0.15, 0.15, 0.15])),
        _four(light_from),
        float(rng.uniform(0.12, 0.4)),
        float(rng.choice([0.0, rng.uniform(0.2, 0.8)], p=[0.6, 0.4])),
    )


def _four(values: np.ndarray) -> tuple[float, float, float, float]:
    first, second, third, fourth = (float(value) for value in values)
    return first, second, third, fourth


def blemishes(rng: np.random.Generator) -> Blemishes:
    """Most glasses are fairly clean; one in ten is not."""
    return Blemishes(
        int(rng.integers(0, 40) if rng.uniform() < 0.85 else rng.integers(40, 400)),
        int(rng.integers(1, 9) if rng.uniform() < 0.5 else 0),
        int(rng.integers(1, 8) if rng.uniform() < 0.25 else 0),
        float(rng.choice([0.0, rng.uniform(0.2, 1.0)], p=[0.88, 0.12])),
    )


def scanner(ppi: int, area_mm2: float, rng: np.random.Generator) -> Scanner:
    file = str(rng.choice(list(FILES), p=list(FILES.values())))
    encoding = str(rng.choice(list(ENCODINGS), p=list(ENCODINGS.values())))
    if encoding == "linear" and file not in ("tif16", "png16"):
        encoding = "srgb"
    pixels = area_mm2 * (ppi / 25.4) ** 2
    return Scanner(
        ppi,
        bool(rng.uniform() < 0.4) and pixels < 4e6,
        0.12 * float(rng.beta(1.0, 2.5)),
        float(rng.uniform(0.86, 0.99)),
        float(rng.choice([0.0, rng.uniform(0.002, 0.015)], p=[0.5, 0.5])),
        float(rng.uniform(0.0002, 0.002)),
        float(rng.uniform(0.0004, 0.002)),
        float(rng.uniform(0.0005, 0.005)),
        float(rng.uniform(0.0, 0.001)),
        encoding,
        file,
        int(rng.integers(82, 98)),
        bool(rng.uniform() < 0.94),
    )
