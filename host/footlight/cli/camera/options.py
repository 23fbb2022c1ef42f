"""Options that several commands of `footlight camera` have."""

from collections.abc import Callable
from functools import reduce
from pathlib import Path

import click

from footlight import quantities as q
from footlight.camera.extension import Extension
from footlight.camera.extension import racked as extension_of
from footlight.camera.tolerances import Tolerances
from footlight.errors import InputError
from footlight.quantities.table import choice

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
    """How far the lens is racked out; `extension` reads them."""
    return reduce(lambda made, option: option(made), reversed(_RACKED), command)


def extension(
    lens: str | None,
    draw: str | None,
    image: str | None,
    subject: str | None,
    pupils: str,
    off_mm: float | None = None,
) -> Extension:
    """The values of `racked`. Raises `InputError`."""
    return extension_of(
        _length_mm(lens, "--lens"),
        _length_mm(draw, "--draw"),
        _length_mm(image, "--image"),
        _length_mm(subject, "--object"),
        q.parse_number(pupils, "--pupils", least=0.2, most=5),
        off_mm,
    )


def _length_mm(text: str | None, what: str) -> float | None:
    return q.parse_length_mm(text, what) if text else None


# The word of a tolerance on the command line -> its field and how it is read.
_OFFS: dict[str, tuple[str, Callable[[str, str], float]]] = {
    "reading": ("reading_stops", q.parse_stops),
    "index": ("index_stops", q.parse_stops),
    "stop": ("stop_stops", q.parse_stops),
    "draw": ("draw_mm", q.parse_length_mm),
    "opening": ("diameter_mm", q.parse_length_mm),
}
offs = click.option(
    "--off",
    "offs",
    multiple=True,
    metavar="WORD VALUE",
    help="How well something is known: 'reading 1/4 stop', 'draw 1 mm'; see `footlight camera tolerances`.",
)


def tolerances(written: tuple[str, ...]) -> Tolerances:
    """The values of `offs`; raises `InputError` for a word that is none."""
    given: dict[str, float] = {}
    for text in written:
        word, _, value = text.strip().partition(" ")
        field, read = _OFFS[choice(word, list(_OFFS), "--off")]
        given[field] = read(value, f"--off: {word}")
        if given[field] < 0:
            raise InputError(f"--off: '{text}' is less than none; write for example 'reading 1/4 stop'")
    return Tolerances(**given)


file = click.option(
    "--file",
    "path",
    type=click.Path(path_type=Path),
    metavar="FILE",
    help="Your camera file, with lenses, lights, filters.",
)
