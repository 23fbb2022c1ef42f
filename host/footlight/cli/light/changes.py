"""A change of arrangement in the commands: what it starts from, its options, how the answer is told."""

from collections.abc import Callable
from dataclasses import replace
from functools import reduce
from typing import NamedTuple, get_args

import click

from footlight import quantities as q
from footlight.cli.light import written
from footlight.cli.options import from_settings, say
from footlight.errors import InputError
from footlight.light.exposure import Exposure, reference_of
from footlight.light.inverse import Change
from footlight.light.setup import Arrangement, Build, Departure, Head, LightSetup, RelayKind
from footlight.light.tolerances import Tolerances

CLICKS = {"whole": 1, "half": 2, "third": 3}
SETUPS_FILE = "light-setups.toml"

clicks = click.option(
    "--clicks",
    type=click.Choice(list(CLICKS)),
    default="third",
    show_default=True,
    help="Stops that the lens has.",
)

# The word of a tolerance on the command line -> its field and how it is read.
OFFS: dict[str, tuple[str, Callable[[str, str], float]]] = {
    "height": ("height_mm", q.parse_length_mm),
    "stop": ("stop_stops", q.parse_stops),
    "lens": ("lens_stops", q.parse_stops),
    "bridge": ("bridge_stops", q.parse_stops),
    "nd": ("nd_density_d", q.parse_density_d),
    "dead": ("dead_ms", q.parse_duration_ms),
    "meter": ("meter_stops", q.parse_stops),
}

_CHANGE_OPTIONS = (
    click.option("--more", metavar="STOPS", help="Extra light wanted: '1/3 stop', '-0.5'."),
    click.option(
        "--bridge", metavar="STOPS", help="How much longer the new lamp or filter needs: a bridging strip."
    ),
    click.option("--p", "p", metavar="P", help="Measured exponent of long exposures, as '0.93'."),
    click.option("--p-off", metavar="P", default="0.02", show_default=True, help="Its standard uncertainty."),
    click.option(
        "--off",
        "offs",
        multiple=True,
        metavar="WORD VALUE",
        help="How well something is known: 'height 5 mm'. See `footlight light tolerances`; may be repeated.",
    ),
    click.option(
        "--head", type=click.Choice(get_args(Head)), help="How the lamp house is built, for its warning."
    ),
    click.option(
        "--relay",
        type=click.Choice(get_args(RelayKind)),
        default="contacts",
        show_default=True,
        help="How the lamp is switched, for the warning about short times.",
    ),
    click.option(
        "--mains", type=click.Choice(["50", "60"]), default="50", show_default=True, help="Mains, in hertz."
    ),
    click.option(
        "--setups",
        type=click.Path(),
        default=from_settings("setups", SETUPS_FILE),
        show_default=SETUPS_FILE,
        metavar="FILE",
        help="The file of a FOUND such as 'setup second'.",
    ),
)


def change_options(command: Callable) -> Callable:
    """The options of a change of arrangement; `start` reads them."""
    return reduce(lambda made, option: option(made), reversed(_CHANGE_OPTIONS), command)


class Start(NamedTuple):
    """What a conversion starts from: seconds [s] at an arrangement, and what both ends share."""

    seconds: float
    at: Arrangement
    change: Change


def start(found: str, *, setups: str, **options) -> Start:
    """FOUND with the options of `change_options`: an exposure in one text, or 'setup NAME' of a file."""
    word, _, name = found.strip().partition(" ")
    change = _change(**options)
    if word.lower() != "setup" or not name:
        seconds, at = written.exposure(found, "FOUND")
        return Start(seconds, at, change)
    setup = load_setup(name.strip(), setups, "FOUND")
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
        offset_stops=q.parse_stops(more, "--more") if more else 0.0,
        bridge_stops=q.parse_stops(bridge, "--bridge") if bridge else None,
        departure=_departure(p, p_off),
        tolerances=read_offs(offs),
        build=Build(head, relay, float(mains)),
    )


def _departure(p: str | None, p_off: str) -> Departure | None:
    if p is None:
        return None
    off = q.parse_number(p_off, "--p-off", most=0.3)
    return Departure(q.parse_number(p, "--p", least=0.5, most=1.2), off)


def read_offs(offs: tuple[str, ...]) -> Tolerances:
    """The tolerances, with those that were given."""
    given: dict[str, float] = {}
    for text in offs:
        word, _, value = text.strip().partition(" ")
        if word not in OFFS:
            raise InputError(f"--off: '{text}' begins with no known word; write one of {', '.join(OFFS)}")
        field, reader = OFFS[word]
        given[field] = abs(reader(value, f"--off {word}"))
    return Tolerances(**given)


def say_exposure(answer: Exposure) -> None:
    """The answer first, then its arithmetic, then what to know."""
    first, *changes = answer.itemised[:-1]
    doubt = f", {answer.budget}" if str(answer.budget) else ""
    say([f"{q.format_seconds(answer.seconds)} at {answer.to}{doubt}", f"  from {first}"])
    say([f"  {line}" for line in changes], answer.notes)
