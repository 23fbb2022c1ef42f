"""The doses of a strip, as they were really given or as they were planned."""

from collections.abc import Callable

import click

from footlight import quantities as q
from footlight.errors import InputError
from footlight.light.strip import steps as plan


def options(function: Callable) -> Callable:
    """`--present`, and either `--doses` or `--centre`, `--step`, `--steps`."""
    for option in reversed(_OPTIONS):
        function = option(function)
    return function


_OPTIONS = (
    click.option(
        "--present", required=True, metavar="TIME", help="The dose that is given now, such as '8 s'."
    ),
    click.option(
        "--doses", metavar="LIST", help="As given: '0, 1 s, 2 s, 4 s, 8 s, 80 s'; zero and anchor too."
    ),
    click.option("--centre", metavar="TIME", help="As planned: the middle step, such as '8 s' …"),
    click.option("--step", metavar="STOPS", default="1 stop", show_default=True, help="… how far apart …"),
    click.option(
        "--steps",
        "count",
        type=int,
        default=7,
        show_default=True,
        help="… and how many between zero and anchor.",
    ),
)


def totals_s(doses: str | None, centre: str | None, step: str, count: int) -> tuple[float, ...]:
    """Every band's dose [s], zero first, anchor last; raises InputError where they do not rise."""
    if (doses is None) == (centre is None):
        raise InputError(
            "strip: give either --doses, as given, or --centre with --step and --steps, as planned"
        )
    if centre is not None:
        totals = plan.fstop_steps(q.parse_seconds(centre, "--centre"), q.parse_stops(step, "--step"), count)
        return (0.0, *totals, plan.anchor_s(totals))
    written = [part.strip() for part in str(doses).split(",")]
    given = tuple(0.0 if part == "0" else q.parse_seconds(part, "--doses") for part in written)
    if given[0] != 0 or list(given) != sorted(set(given)) or len(given) < 5:
        raise InputError(
            "--doses: write a zero, three or more rising steps and the anchor, such as"
            f" '0, 4 s, 8 s, 16 s, 80 s', not '{doses}'"
        )
    return given


def numbers(text: str | None, option: str, least: float, most: float) -> tuple[float, ...]:
    """A list of plain numbers; empty for None."""
    if not text:
        return ()
    return tuple(q.parse_number(part.strip(), option, least=least, most=most) for part in text.split(","))
