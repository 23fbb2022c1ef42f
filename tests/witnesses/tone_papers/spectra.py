"""How much a layer sees of a lux-second: spectra, filters and sensitivities, from physics and memory.

A weight is what a layer takes from one lux-second of a light, as a share of what it takes from one lux-second
of daylight: the sum of spectrum x filter x sensitivity over that of spectrum x V, daylight's own being 1.
"""

from dataclasses import dataclass

import numpy as np

WAVE_NM = np.arange(380.0, 721.0, 5.0)
# Colour temperature of each light [K]; sun and shade as black bodies, which real ones are only nearly.
LIGHTS_K = {"daylight": 5500.0, "shade": 9000.0, "tungsten": 2856.0}
FILTERS = ("", "yellow", "magenta")
COLOURS = ("daylight", "shade", "tungsten", "tungsten yellow", "tungsten magenta")
# What bends a filter's edge [nm].
EDGE_NM = 12.0


@dataclass(frozen=True)
class Sensitivity:
    """A layer: blue to `blue_to_nm`, and a sensitised hump at `green_nm` of `green` times the blue."""

    blue_to_nm: float
    green: float
    green_nm: float = 540.0

    def at(self, wave_nm: np.ndarray) -> np.ndarray:
        blue = 1 / (1 + np.exp((wave_nm - self.blue_to_nm) / 10.0))
        return blue + self.green * np.exp(-(((wave_nm - self.green_nm) / 28.0) ** 2))


def planck(kelvin: float) -> np.ndarray:
    """Spectral radiance, any scale; Planck's law with its second constant 1.4388e7 nm·K."""
    return WAVE_NM**-5 / np.expm1(1.4388e7 / (WAVE_NM * kelvin))


def eye() -> np.ndarray:
    """V, as one bell: 1.019 exp(-285.4 (micrometre - 0.559)²), a textbook's approximation, from memory."""
    return 1.019 * np.exp(-285.4 * (WAVE_NM / 1000 - 0.559) ** 2)


def filter_of(name: str) -> np.ndarray:
    """Share that a filter lets through: yellow takes the blue, magenta the green."""
    if name == "yellow":
        return 0.002 + 0.88 / (1 + np.exp((505.0 - WAVE_NM) / EDGE_NM))
    if name == "magenta":
        green = 1 / (1 + np.exp((490.0 - WAVE_NM) / EDGE_NM)) / (1 + np.exp((WAVE_NM - 600.0) / EDGE_NM))
        return 0.86 * (1 - 0.985 * green)
    return np.ones_like(WAVE_NM)


def weight(sensitivity: Sensitivity, colour: str) -> float:
    """What a layer takes of a lux-second *at the filter's front* of this light; daylight is 1.

    A filter is in the beam and the meter is not behind it: its loss is part of the weight.
    """
    light, _, filtered = colour.partition(" ")
    return _seen(sensitivity, light, filtered) / _seen(sensitivity, "daylight", "")


def _seen(sensitivity: Sensitivity, light: str, filtered: str) -> float:
    spectrum = planck(LIGHTS_K[light])
    taken = spectrum * filter_of(filtered) * sensitivity.at(WAVE_NM)
    return float(taken.sum() / (spectrum * eye()).sum())
