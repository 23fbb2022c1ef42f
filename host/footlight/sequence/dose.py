"""A written dose: `reference`, `+1/3 stop`, `6.5 s` of the reference's light, `15 lx s`."""

import re

from footlight.errors import InputError
from footlight.quantities import parse_lux_seconds, parse_seconds, parse_stops
from footlight.sequence.keys import Reader
from footlight.sequence.model import Dose
from footlight.sequence.readers import quantity

REFERENCE = "reference"
MOST_STOPS = 10.0
MOST_SECONDS = 3600.0
_EXAMPLE = "'reference', '+1/3 stop', '6.5 s' or '15 lx s'"


def dose() -> Reader:
    """A dose in one of its four spellings."""
    allowed = f'"{REFERENCE}", -{MOST_STOPS:g} to +{MOST_STOPS:g} stops, above 0 s, above 0 lx s'
    return quantity(_parse, allowed, '"+1/3 stop"')


def _parse(text: str, what: str) -> Dose:
    if text == REFERENCE:
        return Dose(text, stops=0.0)
    if re.search(r"stops?$", text):
        return Dose(text, stops=parse_stops(text, what, least=-MOST_STOPS, most=MOST_STOPS))
    if re.search(r"\blu?x\b|lux|lx", text):
        return Dose(text, lux_s=parse_lux_seconds(text, what))
    if not re.search(r"[a-z:]", text.lower()):
        raise InputError(f"{what}: '{text}' has no unit; write for example {_EXAMPLE}")
    if not re.search(r"\d", text):
        raise InputError(f"{what}: '{text}' is not a dose; write for example {_EXAMPLE}")
    seconds = parse_seconds(text, what, most_s=MOST_SECONDS)
    if seconds == 0:
        raise InputError(f"{what}: '{text}' is no light; write for example {_EXAMPLE}")
    return Dose(text, reference_s=seconds)
