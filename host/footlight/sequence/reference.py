"""`6.0 s at 620 mm f/11`, `12 lx at 620 mm f/11`: an exposure or a reading, and where it was made."""

import re
from collections.abc import Callable

from footlight.errors import InputError
from footlight.light.setup import MeterReading, Reference
from footlight.quantities import FStop, parse_length_mm, parse_lux, parse_seconds, parse_stop
from footlight.sequence.keys import Reader
from footlight.sequence.readers import quantity

# Commas do as well, as in the commands of `footlight light`: `6 s, 620 mm, f/11`.
_WRITTEN = re.compile(r"(.+?)(?:\s+at\s+|\s*,\s*)(.+?)(?:(?:\s*,\s*|\s+)([fFƒ]\s*/?\s*[\d.].*))?")
_MOST_SECONDS = 3600.0


def reference() -> Reader:
    """The exposure that was found good."""
    example = "6.0 s at 620 mm f/11"
    return quantity(
        lambda text, what: Reference(*_split(text, what, _seconds, example)),
        "time, height, stop (no stop for a bare lamp)",
        f'"{example}"',
    )


def meter() -> Reader:
    """A reading of a light meter on the sheet's place."""
    example = "12 lx at 620 mm f/11"
    return quantity(
        lambda text, what: MeterReading(*_split(text, what, parse_lux, example)),
        "illuminance, height, stop (no stop for a bare lamp)",
        f'"{example}"',
    )


def _seconds(text: str, what: str) -> float:
    seconds = parse_seconds(text, what, most_s=_MOST_SECONDS)
    if seconds == 0:
        raise InputError(f"{what}: '{text}' is no exposure; write for example '6.0 s'")
    return seconds


def _split(
    text: str, what: str, read: Callable[[str, str], float], example: str
) -> tuple[float, float, FStop | None]:
    match = _WRITTEN.fullmatch(text)
    if match is None:
        raise InputError(f"{what}: '{text}' does not say where it was made; write for example '{example}'")
    stop = parse_stop(match[3], what) if match[3] else None
    return read(match[1], what), parse_length_mm(match[2], what), stop
