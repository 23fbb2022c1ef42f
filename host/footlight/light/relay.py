"""How exactly a relay can switch, and so the shortest time that means what it says.

A constant delay is dead time and is counted in; what is left is scatter from one exposure to the next.

    contacts       bounce of 1 to 6 ms at make and the scatter of operate and release (small power relay;
                   terms of IEC 61810-1, figures from memory)
    zero-crossing  each edge waits for the next zero of the mains, 0 to half a cycle: the two waits differ by
                   up to half a cycle either way (application texts; arithmetic)
    random-on      a semiconductor relay that makes at once and opens at the next zero: 0 to half a cycle,
                   so a quarter cycle either way about its mean (arithmetic)
"""

from footlight.errors import InputError
from footlight.light.setup import RelayKind
from footlight.light.uncertainty import LN2

SOUND_STOPS = 0.01
_BOUNCE_MS = 6.0
_KINDS = ("contacts", "zero-crossing", "random-on")


def half_cycle_ms(mains_hz: float) -> float:
    """Half a cycle of the mains [ms], for 50 or 60 Hz and generators near them (45 to 65 Hz)."""
    if not 45 <= mains_hz <= 65:
        raise InputError(f"mains frequency: {mains_hz:g} Hz; allowed is 45 to 65 Hz, usually '50' or '60'")
    return 500.0 / mains_hz


def scatter_ms(relay: RelayKind, mains_hz: float) -> float:
    """The most by which one exposure may differ from its setting [ms], either way."""
    if relay not in _KINDS:
        raise InputError(f"relay: '{relay}' is not known; write one of {', '.join(_KINDS)}")
    if relay == "contacts":
        return _BOUNCE_MS
    return half_cycle_ms(mains_hz) * (1.0 if relay == "zero-crossing" else 0.5)


def shortest_sound_s(relay: RelayKind, mains_hz: float, sound_stops: float = SOUND_STOPS) -> float:
    """The shortest time [s] whose error from switching stays below `sound_stops` [stops].

    First order: scatter / (sound_stops · ln 2).
    """
    return scatter_ms(relay, mains_hz) / 1000 / (sound_stops * LN2)
