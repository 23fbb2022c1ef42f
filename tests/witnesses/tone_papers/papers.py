"""Invented papers after full reversal: light in each layer, silver that is left, density that is seen."""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

import numpy as np
from scipy.special import ndtr
from tests.witnesses.tone_papers import spectra
from tests.witnesses.tone_papers.spectra import Sensitivity

FORMS = ("logistic", "normal", "hits", "skewed")


@dataclass(frozen=True)
class Light:
    """One part of an exposure: colour (of spectra.COLOURS), illuminance times time [lx s], duration [s]."""

    colour: str
    lx_s: float | np.ndarray
    duration_s: float


@dataclass(frozen=True)
class State:
    """How one sheet departs from its paper: speed [stop], contrast [share], and what a tired bath leaves.

    `black_loss` is the share of its black that a sheet misses (too little second exposure or development).
    """

    speed_stops: float = 0.0
    contrast_share: float = 0.0
    black_loss: float = 0.0
    residue_share: float = 0.0


@dataclass(frozen=True)
class Layer:
    """One emulsion: which share of its silver the first development takes, by effective exposure."""

    form: str
    half_lx_s: float
    width_stops: float
    skew: float
    silver: float
    sensitivity: Sensitivity

    def taken(self, effective_lx_s: np.ndarray, state: State) -> np.ndarray:
        """Share from 0 to 1; at `half_lx_s` the curve is near its middle."""
        stops = np.log2(np.maximum(effective_lx_s, 1e-9) / self.half_lx_s) + state.speed_stops
        steep = stops / self.width_stops * (1 + state.contrast_share)
        if self.form == "logistic":
            return 1 / (1 + np.exp(-1.7 * steep))
        if self.form == "normal":
            return ndtr(steep)
        if self.form == "hits":
            return 1 - np.exp(-np.log(2) * 2.0 ** (1.35 * steep))
        return (1 + (2**self.skew - 1) * np.exp(-1.9 * steep)) ** (-1 / self.skew)


@dataclass(frozen=True)
class Paper:
    """What a paper is. Exposures add as light in each layer; only then does the curve come, then the eye.

    `reciprocity_p`: an exposure of t seconds counts as its lx s times t^(p - 1), 1 s being the unit
    (Schwarzschild's law). `stain_d` lies over all, `residue_share` of the silver that the bleach should
    have taken stays in the lights, `fog_share` of all is lost to the first developer without any light.
    """

    layers: tuple[Layer, ...]
    base_d: float
    surface: float
    stain_d: float
    residue_share: float
    fog_share: float
    reciprocity_p: float
    weights: tuple[dict[str, float], ...] = field(repr=False)

    def effective_lx_s(self, lights: Sequence[Light], layer: int) -> np.ndarray:
        """What a layer has had of all parts together, as lux-seconds of daylight in one second."""
        parts = [
            self.weights[layer][light.colour]
            * np.asarray(light.lx_s, float)
            * light.duration_s ** (self.reciprocity_p - 1)
            for light in lights
        ]
        return np.sum(np.broadcast_arrays(*parts), axis=0)

    def density_d(self, lights: Sequence[Light], state: State | None = None) -> np.ndarray:
        """Density of the finished positive [D]: any number of places at once, where `lx_s` are arrays."""
        state = state or State()
        kept, left = np.zeros(()), np.zeros(())
        for number, layer in enumerate(self.layers):
            taken = layer.taken(self.effective_lx_s(lights, number), state)
            taken = self.fog_share + (1 - self.fog_share) * taken
            kept = kept + layer.silver * (1 - taken)
            left = left + layer.silver * taken
        silver = kept * (1 - state.black_loss) + left * (self.residue_share + state.residue_share)
        return self.seen_d(silver)

    def seen_d(self, silver_d: np.ndarray) -> np.ndarray:
        """From silver [D, by transmission] to reflection: through it twice and more; the surface gleams."""
        paper = 10.0 ** -(self.base_d + self.stain_d)
        return -np.log10(self.surface + (paper - self.surface) * 10.0 ** (-2.15 * silver_d))

    @property
    def white_d(self) -> float:
        """The palest it becomes [D]."""
        return float(self.seen_d(np.sum([layer.silver for layer in self.layers]) * self.residue_share))

    @property
    def black_d(self) -> float:
        """The fullest black, where no light came [D]."""
        return float(self.density_d([Light("daylight", 0.0, 1.0)]))

    def lx_s_for(self, density_d: float, colour: str, duration_s: float, others: Sequence[Light]) -> float:
        """The exposure of one colour that gives a density beside other parts [lx s]; inf or 0: none does."""
        low, high = 1e-6, 1e6
        for _ in range(48):
            middle = np.sqrt(low * high)
            reached = self.density_d([Light(colour, middle, duration_s), *others])
            low, high = (middle, high) if reached > density_d else (low, middle)
        return 0.0 if high < 2e-6 else float("inf") if low > 5e5 else float(np.sqrt(low * high))


def paper(rng: np.random.Generator) -> Paper:
    """Half of them of one layer, half multigrade of two."""
    layers = _one_layer(rng) if rng.uniform() < 0.5 else _two_layers(rng)
    return Paper(
        layers,
        float(rng.uniform(0.03, 0.09)),
        float(rng.choice([rng.uniform(0.005, 0.011), rng.uniform(0.012, 0.032)])),
        float(rng.choice([0.0, rng.uniform(0.0, 0.05)])),
        float(rng.choice([0.0, rng.uniform(0.0, 0.02)])),
        float(rng.choice([0.0, rng.uniform(0.0, 0.03)])),
        float(rng.uniform(0.90, 1.0)),
        tuple({c: spectra.weight(layer.sensitivity, c) for c in spectra.COLOURS} for layer in layers),
    )


def _one_layer(rng: np.random.Generator) -> tuple[Layer, ...]:
    """Graded paper: blue, or blue with a little green."""
    green = float(rng.choice([0.0, rng.uniform(0.05, 0.4)]))
    seen = Sensitivity(float(rng.uniform(465, 500)), green)
    layer = _layer(rng, float(2 ** rng.uniform(-1, 2.3)), float(rng.uniform(1.1, 1.5)), seen)
    return (replace(layer, width_stops=float(rng.uniform(0.9, 1.6))),)


def _two_layers(rng: np.random.Generator) -> tuple[Layer, ...]:
    """Multigrade: alike in the blue, and one sees green as well, so that green light parts them."""
    half = float(2 ** rng.uniform(-0.5, 2.3))
    blue = float(rng.uniform(465, 490))
    silver = float(rng.uniform(1.1, 1.5))
    share = float(rng.uniform(0.4, 0.6))
    hard = _layer(rng, half, silver * share, Sensitivity(blue, float(rng.uniform(0.0, 0.05))))
    soft_half = half * float(2 ** rng.uniform(-2.0, -0.6))
    soft = _layer(rng, soft_half, silver * (1 - share), Sensitivity(blue, float(rng.uniform(0.3, 1.0))))
    return hard, soft


def _layer(rng: np.random.Generator, half: float, silver: float, seen: Sensitivity) -> Layer:
    form = str(rng.choice(FORMS))
    return Layer(form, half, float(rng.uniform(0.7, 1.2)), float(rng.uniform(0.3, 3.0)), silver, seen)
