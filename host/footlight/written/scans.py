"""What is written about a scan: densities of patches and where they lie, places of a print, bands."""

import re

from footlight import quantities as q
from footlight.errors import InputError, field
from footlight.written.strip_doses import numbers

BANDS = ("black", "grey", "white", "white2")
_FLASH_BANDS = ("black", "darker", "lighter")
_LEAST_PLACE_MM = 4

Patch = tuple[float, float, float]  # density [D], x, y [mm]
Box = tuple[float, float, float, float]  # x, y, width, height [mm]


def patch(text: str, what: str) -> Patch:
    """`0.06 at 12, 80 mm`."""
    match = re.fullmatch(r"\s*([\d.]+)\s+at\s+([\d.]+)\s*,\s*([\d.]+)\s*mm\s*", text)
    if match is None:
        raise InputError(f"{what}: '{text}' must say density and place, for example '0.06 at 12, 80 mm'")
    density_d, x_mm, y_mm = (q.parse_number(part, what, most=2000) for part in match.groups())
    return density_d, x_mm, y_mm


def base_d(text: str | None, what: str) -> tuple[float, ...]:
    """Density of the bare base [D]: none, one, or in red, green and blue."""
    values = numbers(text, what, 0, 1)
    if len(values) not in (0, 1, 3):
        raise InputError(f"{what}: '{text}' must be one density, or three: 'red, green, blue'")
    return values


def place(text: str, what: str) -> Box:
    """`60, 40, 15, 15`: left, top, width, height [mm]."""
    values = numbers(text, what, 0, 2000)
    if len(values) != 4 or min(values[2:]) < _LEAST_PLACE_MM:
        raise InputError(f"{what}: '{text}' must be x, y, width, height in mm, 4 mm wide and high or more")
    return values[0], values[1], values[2], values[3]


def bands(text: str, what: str) -> tuple[str, ...]:
    """The bands of a crossed strip in order, `black, grey, white`; `black` alone for a plain one."""
    names = tuple(name.strip() for name in text.split(","))
    for name in names:
        if name not in BANDS:
            raise InputError(f"{what}: '{name}' is no band; allowed are {', '.join(BANDS)}, in their order")
    if "black" not in (names[0], names[-1]) or len(set(names)) < len(names):
        raise InputError(
            f"{what}: 'black' must lie at one side, and each band only once; for example 'black, white'"
        )
    return names


def flash_bands(text: str, what: str) -> tuple[str, ...]:
    """The tones of a shadow scale by name, darkest first; those that are not used, '-', are counted."""
    parts = [part.strip() for part in text.split(",")]
    if tuple(part for part in parts if part != "-") != _FLASH_BANDS:
        raise InputError(
            f"{what}: '{text}' must name black, darker and lighter in that order, '-' for others; for"
            " example 'black, darker, -, lighter'"
        )
    return tuple(f"tone {number}" if part == "-" else part for number, part in enumerate(parts, start=1))


def edges_mm(text: str | None) -> tuple[float, ...]:
    """Inner edges of the steps from the zero end [mm]."""
    return numbers(text, field("edges"), 0, 2000)


def corners_mm(text: str | None) -> tuple[tuple[float, float], ...]:
    """`12, 8; 152, 8; 152, 70; 12, 70`: the corners of a strip, around it [mm]; none for None."""
    corners = [numbers(part, field("corners"), 0, 2000) for part in (text or "").split(";") if part.strip()]
    if corners and (len(corners) != 4 or any(len(corner) != 2 for corner in corners)):
        raise InputError(
            f"{field('corners')}: '{text}' must be four corners, as '12, 8; 152, 8; 152, 70; 12, 70' in mm"
        )
    return tuple((corner[0], corner[1]) for corner in corners)
