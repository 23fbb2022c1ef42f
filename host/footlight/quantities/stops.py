"""Differences of exposure in stops: `1/3 stop`, `+1 1/3`, `-0.5`."""

import re

from footlight.errors import InputError
from footlight.quantities.number import as_text, split_number, within

_MOST_STOPS = 20.0


def parse_stops(
    written: object, what: str, *, least: float = -_MOST_STOPS, most: float = _MOST_STOPS
) -> float:
    """A difference [stops], positive for more light; the word `stop` may be left out.

    A bare number of a TOML file is taken as stops. Raises `InputError` outside `least` to `most` [stops].
    """
    if isinstance(written, int | float) and not isinstance(written, bool):
        written = f"{written}"
    text = as_text(written, what, "1/3 stop")
    read = split_number(text)
    if read is None or not re.fullmatch(r"(stops?)?", read[1]):
        raise InputError(
            f"{what}: '{text}' is not a number of stops; write for example '1/3 stop' or '+1 1/3'"
        )
    return within(read[0], text, what, least, most, f"{least:g} to {most:g} stops")


def format_stops(stops: float, *, signed: bool = True) -> str:
    """A difference [stops] as a printer says it: `+1 1/3 stop`, `-1/2 stop`, `0 stop`, else `+0.42 stop`."""
    sign = "-" if stops < 0 else ("+" if signed and stops > 0 else "")
    for under in (1, 2, 3):
        over = abs(stops) * under
        if abs(over - round(over)) < 0.002:
            return f"{sign}{_mixed(round(over), under)} stop"
    return f"{stops:+.2f} stop" if signed else f"{stops:.2f} stop"


def _mixed(over: int, under: int) -> str:
    whole, rest = divmod(over, under)
    if not rest:
        return f"{whole}"
    return f"{whole} {rest}/{under}" if whole else f"{rest}/{under}"
