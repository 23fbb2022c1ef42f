"""What the commands of `footlight bath` share."""

import time
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

import click

from footlight.cli.options import Decorator, json_option, notebook_option, print_json
from footlight.cli.types import Moment

if TYPE_CHECKING:
    from footlight.actions.move_baths import Move

names: Decorator = click.argument("names", metavar="NAME...", nargs=-1)
at: Decorator = click.option(
    "--at",
    "at_s",
    metavar="MOMENT",
    type=Moment(),
    default="now",
    show_default=True,
    help="When: '18:30', '20 min ago', 'yesterday 18:30', '2026-11-24 18:30'.",
)


def now_s() -> int:
    """The present [s since 1970]."""
    return int(time.time())


def leaving(function: Callable[..., None]) -> Callable[..., None]:
    """What `bottled`, `poured` and `emptied` ask: which baths, or all, and when."""
    some = click.argument("names", metavar="[NAME]...", nargs=-1)
    every = click.option("--all", "every", is_flag=True, help="All that are in use.")
    for decorate in (json_option, notebook_option, at, every, some):
        function = decorate(function)
    return function


def leave(move: "Move", names: tuple[str, ...], every: bool, at_s: int, book: Path, as_json: bool) -> None:
    """Do what `bottled`, `poured` and `emptied` do, and tell it."""
    from footlight.actions.move_baths import move_baths
    from footlight.views.times import date_text

    moved = move_baths(book, move, names, every, at_s, now_s())
    if as_json:
        print_json([{"name": bath.name, "id": bath.id, "kind": move, "at_unix_s": at_s} for bath in moved])
        return
    for bath in moved:
        click.echo(f"{bath.name}: {move} {date_text(at_s)}")
        if (bath.kind, move) == ("bleach", "bottled"):
            click.echo("! Under a cap that vents, upright: gas builds up in a sealed bottle until it bursts.")
