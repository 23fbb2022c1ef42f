"""A change of arrangement as it is written: the exposure it starts from, and what both ends share."""

from collections.abc import Callable
from dataclasses import replace
from typing import NamedTuple

from footlight import quantities as q
from footlight.errors import InputError, field
from footlight.light.exposure import reference_of
from footlight.light.inverse import Change
from footlight.light.setup import Arrangement, Build, Departure, Head, LightSetup, RelayKind
from footlight.light.tolerances import Tolerances
from footlight.written import light as written

CLICKS = {"whole": 1, "half": 2, "third": 3}
SETUPS_FILE = "light-setups.toml"

# The word of a tolerance on the command line -> its field and how it is read.
OFFS: dict[str, tuple[str, Callable[[str, str], float]]] = {
    "height": ("height_mm", q.parse_length_mm),
    "scale": ("scale_mm", q.parse_length_mm),
    "stop": ("stop_stops", q.parse_stops),
    "lens": ("lens_stops", q.parse_stops),
    "bridge": ("bridge_stops", q.parse_stops),
    "nd": ("nd_density_d", q.parse_density_d),
    "dead": ("dead_ms", q.parse_duration_ms),
    "meter": ("meter_stops", q.parse_stops),
}


class Start(NamedTuple):
    """What a conversion starts from: seconds [s] at an arrangement, and what both ends share."""

    seconds: float
    at: Arrangement
    change: Change


def start(found: str, *, setups: str, **options) -> Start:
    """The exposure found good, in one text or as 'setup NAME' of a file, with what both ends share."""
    word, _, name = found.strip().partition(" ")
    change = _change(**options)
    if word.lower() != "setup" or not name:
        seconds, at = written.exposure(found, field("found"))
        return Start(seconds, at, change)
    setup = load_setup(name.strip(), setups, field("found"))
    reference = reference_of(setup)
    at = setup.arranged(reference.height_mm, reference.stop)
    shared = replace(change, departure=change.departure or setup.departure, build=setup.build)
    return Start(reference.seconds, at, shared)


def load_setup(name: str, setups: str, what: str) -> LightSetup:
    """A light setup of a light-setups file."""
    from pathlib import Path

    from footlight.sequence.setups import load_setups

    return load_setups(Path(setups)).get(name, what).setup


def _change(
    *,
    more: str | None,
    bridge: str | None,
    p: str | None,
    p_off: str,
    offs: tuple[str, ...],
    head: Head | None,
    relay: RelayKind,
    mains: str,
) -> Change:
    return Change(
        offset_stops=q.parse_stops(more, field("more")) if more else 0.0,
        bridge_stops=q.parse_stops(bridge, field("bridge")) if bridge else None,
        departure=_departure(p, p_off),
        tolerances=read_offs(offs),
        build=Build(head, relay, float(mains)),
    )


def _departure(p: str | None, p_off: str) -> Departure | None:
    if p is None:
        return None
    off = q.parse_number(p_off, field("p_off"), most=0.3)
    return Departure(q.parse_number(p, field("p"), least=0.5, most=1.2), off)


def read_offs(offs: tuple[str, ...]) -> Tolerances:
    """The tolerances, with those that were given."""
    values: dict[str, float] = {}
    for text in offs:
        word, _, value = text.strip().partition(" ")
        if word not in OFFS:
            raise InputError(
                f"{field('offs')}: '{text}' begins with no known word; write one of {', '.join(OFFS)}"
            )
        name, reader = OFFS[word]
        values[name] = abs(reader(value, f"{field('offs')} {word}"))
    return Tolerances(**values)
