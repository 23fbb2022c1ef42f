"""Options that several commands of `footlight light` have."""

from collections.abc import Callable
from functools import reduce
from typing import get_args

import click

from footlight.cli.options import from_settings
from footlight.light.setup import Head, RelayKind
from footlight.written.changes import CLICKS, SETUPS_FILE

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
    """The options of a change of arrangement; `written.changes.start` reads them."""
    return reduce(lambda made, option: option(made), reversed(_CHANGE_OPTIONS), command)
