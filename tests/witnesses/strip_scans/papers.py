"""Invented papers: curve, veil, mottle and surface, with L and U known by the rule of the page."""

from dataclasses import dataclass

import numpy as np
from tests.witnesses.strip_scans import curves, fields
from tests.witnesses.strip_scans.curves import Black, White
from tests.witnesses.strip_scans.fields import Spectrum

SPECTRA = ("bell", "power", "ring")
# Surface -> fullest black above base [D], sparkle of the surface, how coarse it is [mm], share.
SURFACES = {
    "gloss": ((1.85, 2.15), 0.0, 0.3, 0.45),
    "lustre": ((1.65, 1.95), 0.10, 0.45, 0.30),
    "matt": ((1.28, 1.42), 0.03, 0.15, 0.25),
}
# How far the upper limit lies from the lower one [stop]: evenly from no room at all to plenty.
WINDOW_STOPS = (-1.0, 3.5)
FULL_ABOUT_CENTRE_STOPS = (-1.0, 0.75)


@dataclass(frozen=True)
class Cleared:
    """A white band: its curve, the patches of what is left in it, and how patchy it is at a point."""

    white: White
    spectrum: Spectrum
    point_share: float


@dataclass(frozen=True)
class Paper:
    """What the sheet does, and what it looks like. Stops are about the centre of the strip."""

    family: str
    surface: str
    base_d: float
    tint_d: tuple[float, float, float]
    black: Black
    grey_share: float
    grey_late_stops: float
    white: Cleared
    white2: Cleared
    formation_d: float
    black_spread: float
    texture: float
    texture_mm: float
    grain: float
    full_stops: float
    clean_stops: float

    @property
    def window_stops(self) -> float:
        return self.clean_stops - self.full_stops


def paper(
    steps_stops: tuple[float, ...], anchor_stops: float, rng: np.random.Generator, family: str = ""
) -> Paper:
    """One paper, as the strip with these steps will show it; of any family, or of one."""
    family = family or str(rng.choice(curves.FAMILIES))
    surface = str(rng.choice(list(SURFACES), p=[row[3] for row in SURFACES.values()]))
    (low, high), sparkle, coarse_mm, _ = SURFACES[surface]
    aim = rng.uniform(*FULL_ABOUT_CENTRE_STOPS)
    black = curves.black_full_at(curves.SHAPES[family](rng), aim, rng.uniform(low, high))
    full = black.full_stops(np.array([*steps_stops, anchor_stops]))
    clean = full + rng.uniform(*WINDOW_STOPS)
    kind = str(rng.choice(curves.VEILS))
    white = _cleared(kind, clean, rng)
    white2 = _cleared(kind, clean + rng.uniform(0.7, 3.0), rng)
    return Paper(
        family,
        surface,
        float(rng.uniform(0.05, 0.10)),
        _tint(rng),
        black,
        float(rng.uniform(0.25, 0.75)),
        float(rng.uniform(0.0, 0.5)),
        white,
        white2,
        float(rng.uniform(0.0005, 0.0022)),
        float(rng.uniform(0.0005, 0.003)),
        sparkle * float(rng.uniform(0.5, 1.2)),
        coarse_mm * float(rng.uniform(0.8, 1.4)),
        float(rng.uniform(0.004, 0.02)),
        full,
        min(white.white.clean_stops(), white2.white.clean_stops()),
    )


def _cleared(kind: str, clean_stops: float, rng: np.random.Generator) -> Cleared:
    """Half of them are limited by veil, half by mottle. The page's tiles are those of a full field here."""
    spectrum = Spectrum(str(rng.choice(SPECTRA)), float(rng.uniform(1.2, 3.4)))
    point = float(rng.uniform(0.2, 0.9))
    tile = fields.expected_mottle(spectrum, point, (10, 10))
    shape = curves.veil_shape(kind, rng)
    return Cleared(curves.white_clean_to(shape, clean_stops, tile), spectrum, point)


def _tint(rng: np.random.Generator) -> tuple[float, float, float]:
    """Density of the base in red, green and blue about its visual one (weights of sRGB) [D]."""
    blue, red = rng.uniform(0, 0.05), rng.uniform(-0.02, 0.0)
    green = -(0.2126 * red + 0.0722 * blue) / 0.7152
    return float(red), float(green), float(blue)
