"""Lamps, light sensors, probe and thermometer: `Bench(folder, lamp=fitted())`, or `bench.fit(...)`.

All of them are invented. Without one the sensor's pin reads what `Bench.sense` says. How they behave is in
`box/lamp_house.py`; that paper gets what they say it gets is held by `tests/witnesses/lamps`.
"""

from dataclasses import asdict, dataclass
from typing import Any, Literal

Knot = tuple[int, float]  # us of the bench, mains over nominal


@dataclass(frozen=True)
class Lamp:
    """A lamp behind its relay.

    lag_ms: of the filament's temperature about its working point. mains: knots, straight in between.
    mains_hz: 0 = fed with direct current. drift: by how much the cold lamp is darker, gone with drift_s.
    brightness: glass and age, all colours alike. heat: filament's temperature over that of a new lamp at
    nominal mains. ripple: of an LED's driver, over its mean. bulb: another number is another, cold bulb.
    close_ms, open_ms: of the relay.
    """

    kind: Literal["tungsten", "led"] = "tungsten"
    lag_ms: float = 40.0
    mains: tuple[Knot, ...] = ((0, 1.0),)
    mains_hz: float = 50.0
    drift: float = 0.03
    drift_s: float = 40.0
    brightness: float = 1.0
    heat: float = 1.0
    ripple: float = 0.05
    bulb: int = 1
    close_ms: float = 8.0
    open_ms: float = 5.0
    fault: Literal["", "welded", "dead"] = ""


@dataclass(frozen=True)
class Sensor:
    """A photodiode at the lamp house, its load and filter, and the chip's converter.

    sees: its sensitivity. volts: of the warm lamp. limit_v: where it saturates. missing: how many codes run
    into one around each multiple of 512. safelight_v: what red light adds. elsewhere: plugged in at another
    connector, so that its own is empty. stuck_v: what it sticks at.
    """

    sees: Literal["blue", "eye", "silicon", "paper"] = "blue"
    volts: float = 1.25
    offset_v: float = 0.004
    noise_v: float = 0.0008
    filter_ms: float = 24.0
    limit_v: float = 3.0
    missing: int = 8
    safelight_v: float = 0.0
    seed: int = 1
    fault: Literal["", "covered", "stuck", "unplugged", "elsewhere"] = ""
    stuck_v: float = 1.25


@dataclass(frozen=True)
class Probe:
    """An ambient light sensor on the I²C, as on the easel: VEML7700.

    lux: of light that is always there. lamp_lux: of the warm lamp. bus: held = by a chip, until nine clocks
    have gone by; short = at ground for good.
    """

    lux: float = 0.0
    lamp_lux: float = 0.0
    unplugged: bool = False
    bus: Literal["", "held", "short"] = ""


@dataclass(frozen=True)
class Thermometer:
    """A thermometer on one wire: DS18B20.

    number: in its serial number. reset: it has lost its supply, and holds 85 °C until it has measured again.
    noisy: a bit is lost on each reading. short: the wire at ground.
    """

    celsius: float = 20.0
    number: int = 6
    fault: Literal["", "unplugged", "short", "noisy", "reset"] = ""


_SUPPLY_V = 3.3
_FULL_READING = 65_535

USUAL_LAMP, USUAL_SENSOR = Lamp(), Sensor()
# Plain, so that a tape can keep it.
Fitted = dict[str, dict[str, Any]]


def fitted(
    lamp: Lamp | None = USUAL_LAMP,
    sensor: Sensor = USUAL_SENSOR,
    probe: Probe | None = None,
    thermometer: Thermometer | None = None,
) -> Fitted:
    """All this as a bench takes it. Without a lamp its sensor gives what `Bench.sense` says."""
    parts = {"lamp": lamp, "sensor": sensor, "probe": probe, "thermometer": thermometer}
    return {name: asdict(part) for name, part in parts.items() if part}


def reading_of(volts: float) -> int:
    """What the chip's converter gives for so much at its pin [V], as 0 to 65535."""
    return min(_FULL_READING, round(volts / _SUPPLY_V * _FULL_READING))
