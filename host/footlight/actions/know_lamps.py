"""What the controller knows of its lamps, and what is to be changed of that."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass

from footlight.errors import InputError
from footlight.light import counted
from footlight.light.counted import SensorPower
from footlight.link import find, light_sensor
from footlight.link.channel import Channel
from footlight.link.light_sensor import KnownLamp, SensorReply
from footlight.link.light_sensor import volts as volts  # what a view shows of a reading

_UNITY = 1000


@dataclass(frozen=True)
class LampPower:
    """The new exponent of a lamp's sensor against paper, and the one before."""

    name: str
    before: float
    power: SensorPower


def list_lamps(port: str | None = None) -> SensorReply:
    """What the sensor reads, whether one is fitted, and each lamp that was learnt. Raises LinkError."""
    with _connected(port) as channel:
        return light_sensor.look(channel)


def fit_sensor(is_fitted: bool, port: str | None = None) -> None:
    """Say whether a sensor is fitted. Raises LinkError."""
    with _connected(port) as channel:
        light_sensor.fit(channel, is_fitted)


def forget_lamp(name: str, port: str | None = None) -> None:
    """A lamp is known no more: its lights go by seconds. Raises LinkError, InputError for one not known."""
    with _connected(port) as channel:
        _known(light_sensor.look(channel), name)
        light_sensor.learn(channel, KnownLamp(name, 0, 0, 0, 0, _UNITY))


def match_colour(
    name: str, high_s: float, low_s: float, levels: tuple[float, float], port: str | None = None
) -> LampPower:
    """The sensor's exponent against paper, from two counted doses [s] of one tone at two levels [stops]."""
    with _connected(port) as channel:
        lamp = _known(light_sensor.look(channel), name)
        before = lamp.power / _UNITY
        power = counted.sensor_power(high_s, low_s, *levels, before)
        figures = (lamp.level, lamp.dark, lamp.warm_ms, lamp.tail_ms)
        light_sensor.learn(channel, KnownLamp(name, *figures, round(power.power * _UNITY)))
        return LampPower(name, before, power)


@contextmanager
def _connected(port: str | None) -> Iterator[Channel]:
    channel = find.connect(port)
    try:
        yield channel
    finally:
        channel.close()


def _known(reply: SensorReply, name: str) -> KnownLamp:
    for lamp in reply.lamps:
        if lamp.name == name:
            return lamp
    names = ", ".join(lamp.name for lamp in reply.lamps) or "none"
    raise InputError(f"lamp '{name}' was never learnt; known are: {names}")
