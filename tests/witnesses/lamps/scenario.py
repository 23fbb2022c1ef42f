"""Lights as they come: a lamp that was learnt once, and what mains, age and cold have made of it since."""

from dataclasses import dataclass, replace

import numpy as np

from footlight.bench.lamp import Fitted, Lamp, Sensor, fitted

SHORTEST_S, LONGEST_S = 0.3, 30.0
LIGHTS_A_LAMP = 8
_LIMIT = 0.10  # EN 50160: nominal voltage +- 10 %
_KNOT_S = 0.25


@dataclass(frozen=True)
class Scenario:
    """A lamp as it was when its level was learnt, the same at the light, and what is asked [s]."""

    seed: int
    asked_s: float
    learnt: Lamp
    lit: Lamp
    sensor: Sensor

    @property
    def fitted(self) -> tuple[Fitted, Fitted]:
        """What stands on the bench when the level is learnt, and at the light."""
        return fitted(self.learnt, self.sensor), fitted(self.lit, self.sensor)


def mains_walk(rng: np.random.Generator, begin_us: int, span_s: float) -> tuple[tuple[int, float], ...]:
    """About a level of its own it walks, steps and sags, within the limit."""
    count = int(span_s / _KNOT_S) + 2
    level = 1 + rng.normal(0, 0.035)
    path = level + 0.004 * np.cumsum(rng.normal(0, _KNOT_S**0.5, count))
    for _ in range(rng.poisson(span_s / 8)):  # somebody's kettle, or a sag and its end
        first = int(rng.integers(0, count))
        path[first : first + int(rng.integers(1, 40))] += rng.normal(0, 0.02)
    path = np.clip(path, 1 - _LIMIT, 1 + _LIMIT)
    knots = [(begin_us, float(path[0]))]
    for number in range(1, count):
        at_us = begin_us + int(number * _KNOT_S * 1e6)
        # What leaps takes 10 ms, what walks takes the whole span.
        if abs(path[number] - path[number - 1]) > 0.01:
            knots.append((at_us - 10_000, float(path[number - 1])))
        knots.append((at_us, float(path[number])))
    return tuple(knots)


def scenario(seed: int, begin_us: int, sees: str = "blue", asked_s: float | None = None) -> Scenario:
    """From its seed alone; eight seeds in a row have one lamp. `begin_us`: when it begins, about [us]."""
    of_lamp, rng = np.random.default_rng([15, seed // LIGHTS_A_LAMP]), np.random.default_rng([16, seed])
    learnt, sensor = _lamp(of_lamp), _sensor(of_lamp, sees)
    drawn_s = round(float(np.exp(rng.uniform(np.log(SHORTEST_S), np.log(LONGEST_S)))), 3)
    length_s = asked_s or drawn_s
    is_old = rng.random() < 0.5
    lit = replace(
        learnt,
        mains=mains_walk(rng, begin_us, length_s * 1.4 + 3),
        brightness=float(rng.uniform(0.9, 1.0)) if is_old else 1.0,
        heat=float(rng.uniform(0.992, 1.0)) if is_old else 1.0,
    )
    return Scenario(seed, length_s, learnt, lit, sensor)


def _lamp(rng: np.random.Generator) -> Lamp:
    return Lamp(
        kind="led" if rng.random() < 0.15 else "tungsten",
        lag_ms=float(rng.uniform(20, 60)),
        mains=((0, float(1 + rng.uniform(-0.03, 0.03))),),
        mains_hz=float(rng.choice([50.0, 60.0])),
        drift=float(rng.uniform(0, 0.05)),
        drift_s=float(rng.uniform(15, 60)),
        ripple=float(rng.uniform(0, 0.3)),
        close_ms=float(rng.uniform(5, 12)),
        open_ms=float(rng.uniform(3, 8)),
    )


def _sensor(rng: np.random.Generator, sees: str) -> Sensor:
    return Sensor(
        sees=sees,  # pyright: ignore[reportArgumentType]
        volts=float(rng.uniform(1.0, 1.5)),
        offset_v=float(rng.uniform(0, 0.01)),
        noise_v=float(rng.uniform(0.0003, 0.0015)),
        filter_ms=float(24.2 * rng.uniform(0.9, 1.1)),
        seed=int(rng.integers(1, 1 << 30)),
    )
