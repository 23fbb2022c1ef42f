"""Numbers as people write them: `6.5`, `1/3`, `1 1/3`, `⅓`; and the checks every quantity shares."""

import math
import re

from footlight.errors import InputError

_VULGAR = {"½": "1/2", "⅓": "1/3", "⅔": "2/3", "¼": "1/4", "¾": "3/4", "⅙": "1/6", "⅛": "1/8"}

# A decimal, a fraction, or a whole number and a fraction. No exponents: nobody writes 6e2 mm by hand.
NUMBER = r"(?:\d{1,9}\s+\d{1,9}/\d{1,9}|\d{1,9}/\d{1,9}|\d+(?:\.\d+)?|\.\d+)"
# Patterns are kept as text: `re` compiles each when it is first needed, and most commands need few.
_SIGNED = rf"([+-]?)\s*({NUMBER})"


def as_text(written: object, what: str, example: str) -> str:
    """The text of a written value, with one spelling of minus signs, fractions and blanks.

    Raises `InputError` for a value that is not text, such as a bare number in a TOML file.
    """
    if not isinstance(written, str):
        raise InputError(f"{what}: {written!r} has no unit; write it in quotes, for example '{example}'")
    text = (
        written.replace("−", "-").replace("\N{NO-BREAK SPACE}", " ").replace("\N{NARROW NO-BREAK SPACE}", " ")
    )
    for sign, fraction in _VULGAR.items():
        text = text.replace(sign, f" {fraction}")
    text = re.sub(r"([+-])\s+", r"\1", text.strip())
    if not text:
        raise InputError(f"{what}: nothing is written; write for example '{example}'")
    return text


def split_number(text: str) -> tuple[float, str] | None:
    """(value, what follows it), or None where the text does not begin with a number."""
    match = re.match(_SIGNED, text)
    if match is None:
        return None
    value = unsigned(match[2])
    return (-value if match[1] == "-" else value), text[match.end() :].strip()


def unsigned(digits: str) -> float:
    """The value of a text that matches `NUMBER`; infinite where a fraction's lower part is 0."""
    whole, _, fraction = digits.rpartition(" ")
    if "/" not in fraction:
        return float(digits)
    over, under = fraction.split("/")
    if int(under) == 0:
        return math.inf
    return float(whole or 0) + int(over) / int(under)


def within(value: float, shown: str, what: str, least: float, most: float, allowed: str) -> float:
    """`value`, or `InputError` where it is not a number between `least` and `most`, both included."""
    if not math.isfinite(value) or not least <= value <= most:
        raise InputError(f"{what}: '{shown}' is out of range; allowed is {allowed}")
    return value


def parse_number(written: object, what: str, *, least: float = 0.0, most: float = 1e9) -> float:
    """A plain number without unit, such as an exposure index or an exposure value.

    Numbers from a TOML file are taken as they are. Raises `InputError` for anything that is not a
    number between `least` and `most`.
    """
    allowed = f"{least:g} to {most:g}"
    if isinstance(written, int | float) and not isinstance(written, bool):
        return within(float(written), f"{written}", what, least, most, allowed)
    text = as_text(written, what, "4")
    read = split_number(text)
    if read is None or read[1]:
        raise InputError(f"{what}: '{written}' is not a plain number; write for example '4' or '2.5'")
    return within(read[0], text, what, least, most, allowed)
