"""Options that several commands of `footlight camera` have."""

from collections.abc import Callable
from functools import reduce
from pathlib import Path

import click

_RACKED = (
    click.option("--lens", metavar="LENGTH", help="Focal length: '150 mm'."),
    click.option("--draw", metavar="LENGTH", help="Lens board to film: '300 mm'."),
    click.option("--image", metavar="LENGTH", help="Size of something on the ground glass."),
    click.option("--object", "subject", metavar="LENGTH", help="Its own size."),
    click.option(
        "--pupils",
        metavar="RATIO",
        default="1",
        show_default=True,
        help="Pupil ratio: opening seen from behind over that seen from the front.",
    ),
)


def racked(command: Callable) -> Callable:
    """How far the lens is racked out; `written.camera.extension` reads them."""
    return reduce(lambda made, option: option(made), reversed(_RACKED), command)


offs = click.option(
    "--off",
    "offs",
    multiple=True,
    metavar="WORD VALUE",
    help="How well something is known: 'reading 1/4 stop', 'draw 1 mm'; see `footlight camera tolerances`.",
)


file = click.option(
    "--file",
    "path",
    type=click.Path(path_type=Path),
    metavar="FILE",
    help="Your camera file, with lenses, lights, filters.",
)
