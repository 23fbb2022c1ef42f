"""What the commands of `footlight bath` share."""

import time
from collections.abc import Callable

import click

from footlight.cli.options import Decorator, json_option, notebook_option

names: Decorator = click.argument("names", metavar="NAME...", nargs=-1)
at: Decorator = click.option(
    "--at",
    "moment",
    metavar="MOMENT",
    default="now",
    show_default=True,
    help="When: '18:30', '20 min ago', 'yesterday 18:30', '2026-11-24 18:30'.",
)


def now_s() -> int:
    """The present [s since 1970]."""
    return int(time.time())


def said_moment(moment: str, present_s: int) -> int:
    """The moment of `--at` [s since 1970]."""
    from footlight.quantities import parse_moment

    return parse_moment(moment, "--at", present_s)


def leaving(function: Callable[..., None]) -> Callable[..., None]:
    """What `bottled`, `poured` and `emptied` ask: which baths, or all, and when."""
    some = click.argument("names", metavar="[NAME]...", nargs=-1)
    every = click.option("--all", "every", is_flag=True, help="All that are in use.")
    for decorate in (json_option, notebook_option, at, every, some):
        function = decorate(function)
    return function
