"""Learn how a lamp reads: the dark, the level of the warm lamp, how long it takes to get there.

The lamp is lit at the pedal, as the set-up light: no message lights it. What is asked of the person comes as
a word (DARK, LIGHT, STOP); whoever calls says it in his own way.
"""

import math
import statistics
from collections.abc import Callable
from dataclasses import dataclass

from footlight.errors import InputError, act
from footlight.link import find
from footlight.link.channel import Channel
from footlight.link.light_sensor import KnownLamp, SensorReply, fit, learn, look, volts
from footlight_core.program import SHOWN_CHARS, SHOWN_SET
from footlight_core.sensor import MOST_READING

DARK, LIGHT, STOP = "dark", "light", "stop"  # what a person is asked for
_LOOK_S = 0.2
_DARK_LOOKS = 10
_WAIT_S = 180.0
_STEADY_MS = 20_000
_LIT_MS = (
    60_000  # a lamp house takes most of a minute (common practice, no source); the set-up light ends at two
)
_STILL_STOPS = 0.002  # between the halves of so long; else it is learnt when the set-up light ends
_STEADY_STOPS = 0.02  # over so long; a colder lamp would be learnt too low, and its lights come out too short
_TAIL_S = 2.0
_MOST_TAIL_MS = 2_000
_LEAST_READING = 3_000  # 0.15 V: less has too few steps to be counted with
_UNITY = 1000

Ask = Callable[[str], None]
Wait = Callable[[float], None]
Seen = list[tuple[int, int]]  # (ms since the lamp came on, reading)


@dataclass(frozen=True)
class LampLearnt:
    """What was learnt, and by how much the level still moved over its last twenty seconds [stops]."""

    lamp: KnownLamp
    moved_stops: float


def learn_lamp(name: str, port: str | None, ask: Ask, wait: Wait) -> LampLearnt:
    """Guide a person through learning the lamp of this name (as the display shows it).

    ask: told what is wanted now, one of DARK, LIGHT, STOP. wait: sleeps [s]. Raises LinkError, and InputError
    where nothing can be learnt of what was seen.
    """
    check_name(name)
    channel = find.connect(port)
    try:
        return learn_over(channel, name, ask, wait)
    finally:
        channel.close()


def check_name(name: str) -> None:
    """Raises InputError for a name that no lamp of a program can have."""
    if not 1 <= len(name) <= SHOWN_CHARS or set(name) - set(SHOWN_SET):
        raise InputError(
            f"lamp '{name}': wanted are 1 to {SHOWN_CHARS} capitals and figures, the lamp's name as the"
            f" display shows it before a light ('show' of the lamp in light-setups.toml; see {act('plan')})"
        )


def learn_over(channel: Channel, name: str, ask: Ask, wait: Wait) -> LampLearnt:
    """The same over a channel that is open."""
    power = next((lamp.power for lamp in look(channel).lamps if lamp.name == name), _UNITY)
    fit(channel, True)
    ask(DARK)
    dark = _dark(channel, wait)
    ask(LIGHT)
    seen = _warm_up(channel, _until(channel, 1, wait), wait)
    level = _level(seen, dark)
    ask(STOP)
    _until(channel, 0, wait)
    _until_idle(channel, wait)
    wait(_TAIL_S)
    tail_ms = min(max(0, look(channel).tail_ms), _MOST_TAIL_MS)
    lamp = KnownLamp(name, level, dark, _warm_ms(seen, level, dark), tail_ms, power)
    learn(channel, lamp)
    return LampLearnt(lamp, _moved(seen))


def _dark(channel: Channel, wait: Wait) -> int:
    readings = []
    for _ in range(_DARK_LOOKS):
        reply = look(channel)
        if reply.lit:
            raise InputError("the lamp is on: the dark is read first, with the lamp off")
        readings.append(reply.reading)
        wait(_LOOK_S)
    return round(statistics.fmean(readings))


def _until(channel: Channel, lit: int, wait: Wait) -> SensorReply:
    waited_s = 0.0
    while (reply := look(channel)).lit != lit:
        if waited_s > _WAIT_S:
            raise InputError("nothing came at the pedal in three minutes: begin again when you are there")
        wait(_LOOK_S)
        waited_s += _LOOK_S
    return reply


def _until_idle(channel: Channel, wait: Wait) -> None:
    # Only then what was learnt may be written.
    waited_s = 0.0
    while channel.ask("status")["state"] != "idle":
        if waited_s > _WAIT_S:
            raise InputError("the set-up light was not left: a long press at the pedal, then begin again")
        wait(_LOOK_S)
        waited_s += _LOOK_S


def _warm_up(channel: Channel, begin: SensorReply, wait: Wait) -> Seen:
    """Until the level is steady, or the lamp goes off."""
    seen: Seen = []
    while (reply := look(channel)).lit:
        seen.append((reply.t - begin.t, reply.reading))
        if seen[-1][0] > _LIT_MS and _moved(seen) < _STILL_STOPS:
            break
        wait(_LOOK_S)
    return seen


def _moved(seen: Seen) -> float:
    """By how much the level moved between the halves of its last twenty seconds [stops]."""
    last = _last(seen, _STEADY_MS)
    half = len(last) // 2
    if not half:
        return math.inf
    # By halves, for the noise of single readings is no drift.
    first, second = statistics.fmean(last[:half]), statistics.fmean(last[half:])
    return abs(math.log2(max(second, 1) / max(first, 1)))


def _last(seen: Seen, span_ms: int) -> list[int]:
    return [reading for t_ms, reading in seen if t_ms > seen[-1][0] - span_ms]


def _level(seen: Seen, dark: int) -> int:
    level = round(statistics.fmean(_last(seen, _STEADY_MS // 4) or [0]))
    if level > MOST_READING:
        raise InputError(
            f"the warm lamp reads {volts(level):.2f} V; allowed is up to {volts(MOST_READING):.1f} V: take a"
            " smaller R19, or move the sensor away"
        )
    if level - dark < _LEAST_READING or level <= 2 * dark:
        raise InputError(
            f"the warm lamp reads {volts(level):.2f} V and the dark {volts(dark):.2f} V; at least"
            f" {volts(_LEAST_READING):.2f} V apart, and twice the dark: is the sensor at the lamp, at its own"
            " connector, and uncovered?"
        )
    if seen[-1][0] < _STEADY_MS or _moved(seen) > _STEADY_STOPS:
        raise InputError(
            f"the lamp was lit for {seen[-1][0] / 1000:.0f} s and moved by {_moved(seen):.2f} stop in the"
            " last twenty: nothing was learnt; leave it lit for longer, or begin again while it is warm"
        )
    return level


def _warm_ms(seen: Seen, level: int, dark: int) -> int:
    """When the level had come to stay [ms]."""
    final = level - dark
    off = [t_ms for t_ms, reading in seen if abs(math.log2(max(1, reading - dark) / final)) > _STEADY_STOPS]
    return max(off, default=0)
