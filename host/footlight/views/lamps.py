"""Lamps as the controller knows them: lines, and plain dictionaries."""

from typing import Any

from footlight.actions.know_lamps import KnownLamp, LampPower, SensorReply, volts
from footlight.actions.learn_lamp import LampLearnt
from footlight.light import counted
from footlight.views.table import columns

_HEAD = ["lamp", "warm", "dark", "warm after", "after the gate", "paper for a stop"]


def lamp_lines(reply: SensorReply, width: int | None = None) -> list[str]:
    """What is known, and how sure it makes a light."""
    by_seconds = f"a light by seconds: {counted.by_seconds()}"
    if not reply.fitted:
        return ["no light sensor is fitted: lights go by seconds", by_seconds]
    rows = [_row(lamp) for lamp in reply.lamps]
    lines = columns(_HEAD, rows, width) if rows else ["no lamp was learnt yet: lights go by seconds"]
    reads = f"the sensor reads {volts(reply.reading):.3f} V"
    return [reads, *lines, by_seconds, f"a counted light: {counted.by_count()}"]


def lamps_dict(reply: SensorReply) -> dict[str, Any]:
    """The same for a script."""
    return {
        "fitted": bool(reply.fitted),
        "reading": reply.reading,
        "lamps": [lamp_dict(lamp) for lamp in reply.lamps],
        "by_seconds": counted.by_seconds().as_dict(),
        "by_count": counted.by_count().as_dict(),
    }


def lamp_dict(lamp: KnownLamp) -> dict[str, Any]:
    """One lamp for a script."""
    return {name: getattr(lamp, name) for name in lamp.__struct_fields__}


def learnt_lines(learnt: LampLearnt) -> list[str]:
    """What was learnt of a lamp."""
    lamp = learnt.lamp
    return [
        f"{lamp.name}: {volts(lamp.level):.3f} V warm, {volts(lamp.dark):.3f} V dark, within 0.02 stop of"
        f" that {lamp.warm_ms / 1000:.0f} s after it came on",
        f"{lamp.tail_ms} ms of light come after the gate; {learnt.moved_stops:.3f} stop in the last 20 s",
        f"from now on its light is counted: {counted.by_count()}; by seconds {counted.by_seconds()}",
    ]


def power_lines(matched: LampPower) -> list[str]:
    """The sensor's colour against paper."""
    power = matched.power
    return [
        f"{matched.name}: {power.power:.3f} ± {power.uncertainty:.3f} stop of paper for a stop of the sensor,"
        f" {matched.before:.3f} before",
        f"a counted light: {counted.by_count(power)}",
    ]


def _row(lamp: KnownLamp) -> list[str]:
    return [
        lamp.name,
        f"{volts(lamp.level):.3f} V",
        f"{volts(lamp.dark):.3f} V",
        f"{lamp.warm_ms / 1000:.0f} s",
        f"{lamp.tail_ms} ms",
        f"{lamp.power / 1000:.3f} stop",
    ]
