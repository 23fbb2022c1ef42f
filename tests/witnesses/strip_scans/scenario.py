"""One scan to be drawn: everything that chance decides, from a seed."""

from dataclasses import dataclass

import numpy as np
from tests.witnesses.strip_scans import beds, papers
from tests.witnesses.strip_scans.beds import Bed, Blemishes, Scanner, Tablet
from tests.witnesses.strip_scans.papers import Paper

# Kind -> size along the steps and across the bands [mm], share of the scans.
SHEETS = {
    "2 x 8 in": (203.2, 50.8, 0.26),
    "half 5 x 7 in": (177.8, 63.5, 0.20),
    "2 x 5 in": (127.0, 50.8, 0.18),
    "140 x 62 mm": (140.0, 62.0, 0.14),
    "4 x 5 in": (127.0, 101.6, 0.14),
    "5 x 7 in": (177.8, 127.0, 0.05),
    "8 x 10 in": (254.0, 203.2, 0.03),
}
SMALL = "80 x 26 mm"
PPI = {200: 0.08, 240: 0.04, 300: 0.37, 400: 0.10, 600: 0.33, 1200: 0.065, 2400: 0.015}
LEAST_STEP_MM = 11.0


@dataclass(frozen=True)
class Design:
    """The strip as planned: steps about the centre [stop], doses [s] with zero and anchor."""

    kind: str
    centre_s: float
    present_s: float
    steps_stops: tuple[float, ...]

    @property
    def doses_s(self) -> tuple[float, ...]:
        """What each step gets: nothing, the steps, and ten times the centre or twice the last step."""
        steps = [self.centre_s * 2**stops for stops in self.steps_stops]
        return (0.0, *steps, max(10 * self.centre_s, 2 * steps[-1]))


@dataclass(frozen=True)
class Sheet:
    """The strip as it was made: sizes, and edges where blade and scissors really were [mm, degree]."""

    kind: str
    length_mm: float
    width_mm: float
    bands: tuple[str, ...]
    step_edges_mm: tuple[float, ...]
    step_tilts_deg: tuple[float, ...]
    band_edges_mm: tuple[float, ...]
    band_tilts_deg: tuple[float, ...]
    penumbra_mm: float
    lens_mm: float
    wobble_mm: float
    in_pieces: bool


@dataclass(frozen=True)
class Scenario:
    """A scan: paper, strip, tablet, bed, blemishes and scanner."""

    seed: int
    paper: Paper
    design: Design
    sheet: Sheet
    tablet: Tablet
    bed: Bed
    blemishes: Blemishes
    scanner: Scanner


def scenario(seed: int) -> Scenario:
    """The scan of a seed."""
    rng = np.random.default_rng([14, seed])
    ppi = int(rng.choice(list(PPI), p=list(PPI.values())))
    kind = _sheet_kind(ppi, rng)
    length, width = (80.0, 26.0) if kind == SMALL else SHEETS[kind][:2]
    design = _design(kind, length, rng)
    paper = papers.paper(design.steps_stops, _anchor_stops(design), rng)
    sheet = _sheet(kind, length, width, len(design.steps_stops) + 2, rng)
    return Scenario(
        seed,
        paper,
        design,
        sheet,
        beds.tablet(length, rng),
        beds.bed(rng),
        beds.blemishes(rng),
        beds.scanner(ppi, length * width, rng),
    )


def _anchor_stops(design: Design) -> float:
    return float(np.log2(design.doses_s[-1] / design.centre_s))


def _sheet_kind(ppi: int, rng: np.random.Generator) -> str:
    """Large sheets are scanned coarsely: one hundred million pixels is nobody's habit."""
    if ppi == 2400:
        return SMALL
    if ppi == 1200:
        return str(rng.choice([SMALL, "2 x 5 in"], p=[0.4, 0.6]))
    fine = ppi >= 600
    kinds = [kind for kind in SHEETS if not (fine and kind in ("5 x 7 in", "8 x 10 in"))]
    weights = np.array([SHEETS[kind][2] for kind in kinds])
    return str(rng.choice(kinds, p=weights / weights.sum()))


def _design(kind: str, length_mm: float, rng: np.random.Generator) -> Design:
    room = int(length_mm / LEAST_STEP_MM) - 2
    draw = rng.uniform()
    if kind == SMALL or draw < 0.10:
        name, stops = "whole stops", np.arange(-3.0, 4.0)
    elif draw < 0.22 and room >= 11:
        thirds = np.arange(-3, 4) / 3
        name, stops = "unequal", np.concatenate([[-3, -2], thirds, [2, 3]])
    else:
        count = int(rng.choice([count for count in (9, 11, 13) if count <= max(room, 9)]))
        name, stops = "half stops", (np.arange(count) - count // 2) / 2
    centre = float(round(2.0 ** rng.uniform(1, 5), 1))
    present = centre if rng.uniform() < 0.7 else float(round(centre * 2 ** rng.uniform(-1, 1), 1))
    return Design(name, centre, present, tuple(float(stop) for stop in stops))


def _bands(kind: str, rng: np.random.Generator) -> tuple[str, ...]:
    if kind == SMALL:
        return ("black", "white")
    draw = rng.uniform()
    if draw < 0.05:
        return ("black", "grey", "white")
    if draw < 0.10:
        return ("black", "white", "white2")
    return ("black", "grey", "white", "white2")


def _edges(length_mm: float, count: int, blade_mm: float, rng: np.random.Generator) -> tuple[float, ...]:
    """Inner edges of equal parts, each off by a hand of that standard deviation, 1.5 mm at most."""
    off = np.clip(rng.normal(0, blade_mm, count - 1), -1.5, 1.5)
    return tuple(float(edge) for edge in np.arange(1, count) * length_mm / count + off)


def _sheet(kind: str, length: float, width: float, steps: int, rng: np.random.Generator) -> Sheet:
    bands = _bands(kind, rng)
    blade = float(rng.choice([0.1, rng.uniform(0.1, 0.9)], p=[0.4, 0.6]))
    tilt = float(rng.uniform(0.02, 0.35))
    return Sheet(
        kind,
        length,
        width,
        bands,
        _edges(length, steps, blade, rng),
        tuple(float(angle) for angle in rng.normal(0, tilt, steps - 1)),
        _edges(width, len(bands), min(blade, 0.6), rng),
        tuple(float(angle) for angle in rng.normal(0, tilt / 2, len(bands) - 1)),
        float(rng.uniform(0.1, 0.7)),
        float(rng.uniform(max(450, 2 * length), 950)),
        float(rng.choice([0.03, rng.uniform(0.2, 0.8)], p=[0.65, 0.35])),
        bool(rng.uniform() < 0.04),
    )
