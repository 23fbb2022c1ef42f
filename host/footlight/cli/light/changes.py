"""A change of arrangement in the commands: its options, and how the answer is told."""

from collections.abc import Callable
from functools import reduce
from typing import get_args

import click

from footlight import quantities as q
from footlight.cli.light.printing import say
from footlight.light.exposure import Exposure
from footlight.light.inverse import Change
from footlight.light.setup import Build, Departure, Head, RelayKind
from footlight.light.tolerances import Tolerances

CLICKS = {"whole": 1, "half": 2, "third": 3}

clicks = click.option(
    "--clicks",
    type=click.Choice(list(CLICKS)),
    default="third",
    show_default=True,
    help="Stops that the lens has.",
)

_CHANGE_OPTIONS = (
    click.option("--more", metavar="STOPS", help="Extra light wanted: '1/3 stop', '-0.5'."),
    click.option(
        "--bridge", metavar="STOPS", help="How much longer the new lamp or filter needs: a bridging strip."
    ),
    click.option("--p", "p", metavar="P", help="Measured exponent of long exposures, as '0.93'."),
    click.option("--p-off", metavar="P", default="0.02", show_default=True, help="Its standard uncertainty."),
    click.option(
        "--height-off", metavar="LENGTH", help="How well heights are known: '5 mm' (otherwise 10 mm)."
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
    click.option("--stop-off", metavar="STOPS", help="How well an engraved stop is known (otherwise 0.07)."),
)


def change_options(command: Callable) -> Callable:
    """The options of a change of arrangement; `change` reads them."""
    return reduce(lambda made, option: option(made), reversed(_CHANGE_OPTIONS), command)


def change(
    *,
    more: str | None,
    bridge: str | None,
    p: str | None,
    p_off: str,
    height_off: str | None,
    stop_off: str | None,
    head: Head | None,
    relay: RelayKind,
    mains: str,
) -> Change:
    """The options of `change_options`, read."""
    return Change(
        offset_stops=q.parse_stops(more, "--more") if more else 0.0,
        bridge_stops=q.parse_stops(bridge, "--bridge") if bridge else None,
        departure=_departure(p, p_off),
        tolerances=_tolerances(height_off, stop_off),
        build=Build(head, relay, float(mains)),
    )


def _departure(p: str | None, p_off: str) -> Departure | None:
    if p is None:
        return None
    off = q.parse_number(p_off, "--p-off", most=0.3)
    return Departure(q.parse_number(p, "--p", least=0.5, most=1.2), off)


def _tolerances(height_off: str | None, stop_off: str | None) -> Tolerances:
    given: dict[str, float] = {}
    if height_off:
        given["height_mm"] = q.parse_length_mm(height_off, "--height-off")
    if stop_off:
        given["stop_stops"] = q.parse_stops(stop_off, "--stop-off", least=0, most=1)
    return Tolerances(**given)


def say_exposure(answer: Exposure) -> None:
    """The answer first, then its arithmetic, then what to know."""
    first, *changes = answer.itemised[:-1]
    doubt = f", {answer.budget}" if str(answer.budget) else ""
    say([f"{q.format_seconds(answer.seconds)} at {answer.to}{doubt}", f"  from {first}"])
    say([f"  {line}" for line in changes], answer.notes)
