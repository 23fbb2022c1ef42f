"""Steady currents of the devices, for the DC model: what flows into their nodes [A] at voltages [V].

The figures are those of spice/models.py at its typical corner, without its capacitances.
"""

from __future__ import annotations

import math
from collections.abc import Callable

Current = Callable[..., tuple[float, ...]]

THERMAL_V = 0.02585
_STEEPEST = 38.0  # beyond that many thermal voltages the exponential goes on as its tangent


def _exp(x: float) -> float:
    return math.exp(x) if x < _STEEPEST else math.exp(_STEEPEST) * (1 + x - _STEEPEST)


def diode(saturation_a: float, emission: float, breakdown_v: float | None = None) -> Current:
    """Return the law of a diode, anode first; with a breakdown, of a zener diode."""
    scale = emission * THERMAL_V

    def law(anode: float, cathode: float) -> tuple[float, ...]:
        volts = anode - cathode
        amps = saturation_a * (_exp(volts / scale) - 1)
        if breakdown_v is not None:
            amps -= 1e-9 * _exp((-volts - breakdown_v) / (1.5 * THERMAL_V))
        return amps, -amps

    return law


def npn(base: float, collector: float, emitter: float) -> tuple[float, ...]:
    """Ebers and Moll's transistor, gain 250 forward and 10 in reverse."""
    forward = 4e-14 * (_exp((base - emitter) / THERMAL_V) - 1)
    reverse = 4e-14 * (_exp((base - collector) / THERMAL_V) - 1)
    into_base = forward / 250 + reverse / 10
    into_collector = forward - reverse - reverse / 10
    return into_base, into_collector, -into_base - into_collector


def pnp(base: float, collector: float, emitter: float) -> tuple[float, ...]:
    """The same, all signs turned."""
    return tuple(-amps for amps in npn(-base, -collector, -emitter))


def fet(gate: float, drain: float, source: float) -> tuple[float, ...]:
    """An N-channel FET by the square law, with its body diode."""
    volts = drain - source
    over = gate - min(source, drain) - 1.5
    size = min(abs(volts), max(over, 0.0))
    amps = math.copysign(30.0 * (max(over, 0.0) * size - size**2 / 2), volts) if over > 0 else 0.0
    body = 1e-11 * (_exp(-volts / THERMAL_V) - 1)
    return 0.0, amps - body, body - amps


OF_KEY: dict[str, Current] = {
    "fet": fet,
    "bc337": npn,
    "bc327": pnp,
    "schottky-1a": diode(3e-6, 1.15),
    "schottky-small": diode(2e-7, 1.4),
    "diode-1a": diode(4e-9, 1.9),
    "diode-small": diode(4e-9, 1.9),
    "zener-12": diode(1e-9, 1.5, 12.0),
    "tvs": diode(1e-9, 1.5, 6.8),
    "led-red": diode(1e-20, 1.8),
}
# The order in which a law takes the pins of its part.
PINS_OF_SHAPE = {"fet": ("G", "D", "S"), "npn": ("B", "C", "E"), "pnp": ("B", "C", "E")}
