"""The light sensor over the link: what it reads, what is known of each lamp, and what was learnt anew."""

import msgspec

from footlight.link.channel import Channel
from footlight.link.errors import OtherMakeError
from footlight.link.replies import Count, Name

FULL_READING = 65_535
_FULL_V = 3.3


class KnownLamp(msgspec.Struct, frozen=True, array_like=True):
    """What was learnt of a lamp: readings of the warm lamp and of the dark, warm-up and light after the
    gate's end [ms], stops of paper for a stop of the sensor in thousandths."""

    name: Name
    level: Count
    dark: Count
    warm_ms: Count
    tail_ms: Count
    power: Count


class SensorReply(msgspec.Struct, frozen=True):
    """reading: 0 to 65535 for 3.3 V. lit: does the controller have the lamp on? t: its clock [ms]. tail_ms:
    of the last light, -1 where none was seen."""

    reading: Count
    lit: int
    t: Count
    tail_ms: int
    fitted: int
    lamps: list[KnownLamp]


def look(channel: Channel) -> SensorReply:
    """What the sensor says now. Raises LinkError."""
    reply = channel.ask("sense")
    try:
        return msgspec.convert(reply, SensorReply)
    except msgspec.ValidationError as error:
        raise OtherMakeError(f"{channel.name}: the sensor's reply has another shape ({error})") from error


def fit(channel: Channel, is_fitted: bool) -> None:
    """Say whether a sensor is fitted."""
    channel.ask("fit", fitted=int(is_fitted))


def learn(channel: Channel, lamp: KnownLamp) -> None:
    """Have the controller know a lamp so; a level of 0 forgets it."""
    figures = {"level": lamp.level, "dark": lamp.dark, "warm_ms": lamp.warm_ms, "tail_ms": lamp.tail_ms}
    channel.ask("learn", lamp=lamp.name, power=lamp.power, **figures)


def volts(reading: float) -> float:
    """A reading as the voltage at the pin [V]."""
    return reading * _FULL_V / FULL_READING
