"""What paper has had in each of many lights, at once: the filament's balance by Runge and Kutta, Planck's law
direct, the afterglow in closed form. Shares nothing with the bench's lamp but the figures it is made with.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from tests.witnesses.lamps.spectra import level

from footlight.bench.lamp import Lamp

_COLD, _NOTHING = 0.1, 0.3
_STEP_S = 0.001
_CHUNK = 1000
_GLOW_S = 1.5
_NODES = np.linspace(_NOTHING, 1.35, 4000)
_LOG_PAPER = np.log(level("paper", _NODES))


@dataclass(frozen=True)
class Light:
    """One light by the gate [us of the bench], from a lamp whose warm-up stood at `warmth` (0 to 1)."""

    lamp: Lamp
    begin_us: int
    end_us: int
    warmth: float = 0.0


def paper_level(temperature: np.ndarray) -> np.ndarray:
    """What paper sees of a filament."""
    seen = np.exp(np.interp(temperature, _NODES, _LOG_PAPER))
    return np.where(temperature > _NOTHING, seen, 0.0)


class _Lights:
    """Figures of many lamps of one kind as arrays, and where each stands."""

    def __init__(self, lights: Sequence[Light]) -> None:
        self._lamps = [light.lamp for light in lights]
        self._is_led = np.array([lamp.kind == "led" for lamp in self._lamps])
        self._heat = self._of("heat")
        self._capacity_s = 5.2 * self._of("lag_ms") / 1000 * self._heat**3
        self._swing = 4 * np.pi * self._of("mains_hz")
        self._begin_s = np.array([light.begin_us for light in lights]) / 1e6 + self._of("close_ms") / 1000
        end_s = np.array([light.end_us for light in lights]) / 1e6 + self._of("open_ms") / 1000
        self._fed_s = np.maximum(0, end_s - self._begin_s)
        self._warmth = np.array([light.warmth for light in lights])
        self._temperature = np.full(len(lights), _COLD)
        self.dose_s = np.zeros(len(lights))

    def _of(self, name: str) -> np.ndarray:
        return np.array([getattr(lamp, name) for lamp in self._lamps])

    def burn(self) -> None:
        """As long as each is fed."""
        steps = int(np.ceil(self._fed_s.max() / _STEP_S))
        for first in range(0, steps, _CHUNK):
            middles_s = (first + np.arange(_CHUNK) + 0.5) * _STEP_S
            mains = np.stack([self._mains(k, middles_s) for k in range(len(self._lamps))])
            for number, middle_s in enumerate(middles_s):
                start_s = middle_s - _STEP_S / 2
                self._step(mains[:, number], start_s, np.clip(self._fed_s - start_s, 0, _STEP_S))

    def _mains(self, number: int, passed_s: np.ndarray) -> np.ndarray:
        knots = np.array(self._lamps[number].mains)
        return np.interp(self._begin_s[number] + passed_s, knots[:, 0] / 1e6, knots[:, 1])

    def _step(self, mains: np.ndarray, start_s: float, span_s: np.ndarray) -> None:
        angle = self._swing * (self._begin_s + start_s)
        ac = [
            np.where(self._swing > 0, 1 - np.cos(angle + self._swing * span_s * k / 2), 1) for k in range(3)
        ]
        powers = [mains**2 * self._heat**5.2 * share for share in ac]
        before = self._temperature
        a = self._slope(before, powers[0])
        b = self._slope(before + span_s / 2 * a, powers[1])
        c = self._slope(before + span_s / 2 * b, powers[1])
        d = self._slope(before + span_s * c, powers[2])
        self._temperature = before + span_s / 6 * (a + 2 * b + 2 * c + d)
        level_now = paper_level((before + self._temperature) / 2)
        level_now = np.where(self._is_led, self._led(angle, start_s, span_s), level_now)
        self.dose_s += level_now * self._factor(start_s + span_s / 2) * span_s

    def _led(self, angle: np.ndarray, start_s: float, span_s: np.ndarray) -> np.ndarray:
        risen = 1 - np.exp(-(start_s + span_s / 2) / 0.001)
        return risen * (1 + self._of("ripple") * np.cos(angle + self._swing * span_s / 2))

    def _slope(self, temperature: np.ndarray, power: np.ndarray) -> np.ndarray:
        return (power / temperature**1.2 - temperature**4) / self._capacity_s

    def _factor(self, passed_s: np.ndarray | float) -> np.ndarray:
        cold = (1 - self._warmth) * np.exp(-passed_s / self._of("drift_s"))
        return self._of("brightness") * (1 - self._of("drift") * cold)

    def glow(self) -> None:
        """Until it is dark."""
        after_s = np.arange(0, _GLOW_S, _STEP_S) + _STEP_S / 2
        cube = self._temperature[:, None] ** -3 + 3 * after_s / self._capacity_s[:, None]
        glow_s = paper_level(cube ** (-1 / 3)).sum(axis=1) * _STEP_S
        led_s = np.where(self._fed_s > 0, 0.001, 0.0)
        self.dose_s += np.where(self._is_led, led_s, glow_s) * self._factor(self._fed_s)


def doses_s(lights: Sequence[Light]) -> np.ndarray:
    """What paper has had in each, the glow of the filament included, in seconds of the new, warm lamp."""
    many = _Lights(lights)
    many.burn()
    many.glow()
    return many.dose_s


@dataclass(frozen=True)
class Steady:
    """A warm lamp at the mains of its first knot: what paper sees per second, and its dead time [s]."""

    level: float
    dead_s: float


def steady(lamps: Sequence[Lamp]) -> list[Steady]:
    """Of each, from two lights of different lengths."""
    both = [doses_s([Light(lamp, 0, span_s * 1_000_000, warmth=1.0) for lamp in lamps]) for span_s in (1, 2)]
    levels = both[1] - both[0]
    return [
        Steady(float(level), float(1 - dose_s / level)) for level, dose_s in zip(levels, both[0], strict=True)
    ]
