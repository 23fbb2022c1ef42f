"""How a scan is to be read: options that every reading of one has."""

import re
from collections.abc import Callable

import click

from footlight import quantities as q
from footlight.cli.read import doses
from footlight.errors import InputError

OPTIONS = (
    click.option("--ppi", type=float, help="Resolution, where the file has none or a wrong one."),
    click.option(
        "--tablet", metavar="LIST", help="Densities of a grey tablet beside the strip: '0.06, 0.2, 0.35, …'."
    ),
    click.option(
        "--patch",
        "patches",
        multiple=True,
        metavar="PATCH",
        help="'0.06 at 12, 80 mm': a known density; twice or more.",
    ),
    click.option("--linear", is_flag=True, help="The scan is proportional to light, not sRGB."),
)


def options(function: Callable) -> Callable:
    """All of them."""
    for option in reversed(OPTIONS):
        function = option(function)
    return function


def calibration(given: dict) -> dict:
    """The options as `strips.reading.Options` takes them."""
    if given["tablet"] and given["patches"]:
        raise InputError("give either --tablet or --patch, not both")
    return {
        "tablet_d": doses.numbers(given["tablet"], "--tablet", 0, 4),
        "patches": tuple(patch(text) for text in given["patches"]),
        "linear": given["linear"],
    }


PAPER = click.option(
    "--paper",
    metavar="DENSITY",
    help="Density of the bare base, to tell veil from base; or 'red, green, blue', to tell a warm base from"
    " stain.",
)


def paper(text: str | None) -> tuple[float | None, float | None]:
    """Density of the bare base, and how much denser it is in blue than in green [D]; None: not known."""
    import math

    from footlight.strips.scan.calibration import LUMINANCE

    values = doses.numbers(text, "--paper", 0, 1)
    if len(values) not in (0, 1, 3):
        raise InputError(f"--paper: '{text}' must be one density, or three: 'red, green, blue'")
    if len(values) < 3:
        return (values[0] if values else None), None
    light = sum(share * 10**-density for share, density in zip(LUMINANCE, values, strict=True))
    return -math.log10(light), values[2] - values[1]


def patch(text: str):
    """`0.06 at 12, 80 mm` as a `strips.tablet.Patch`."""
    from footlight.strips.find.tablet import Patch

    found = re.fullmatch(r"\s*([\d.]+)\s+at\s+([\d.]+)\s*,\s*([\d.]+)\s*mm\s*", text)
    if found is None:
        raise InputError(f"--patch: '{text}' must say density and place, for example '0.06 at 12, 80 mm'")
    return Patch(*(q.parse_number(part, "--patch", most=2000) for part in found.groups()))
