"""Readers of written values: each knows what is allowed, so that messages and reference agree.

Quantities are read by `footlight.quantities`; here are limits, and the kinds that only a file has.
"""

from collections.abc import Callable, Sequence
from typing import Any

from footlight.errors import InputError
from footlight.quantities import (
    format_duration,
    parse_density_d,
    parse_duration_ms,
    parse_length_mm,
    parse_number,
    parse_sheet,
    parse_stop,
)
from footlight.sequence import shown as display
from footlight.sequence.errors import nearest, short
from footlight.sequence.keys import Reader
from footlight_core.program import NAME_CHARS


def words(written: Any, what: str, example: str) -> str:
    """A value that must be text, without blanks at its ends."""
    if not isinstance(written, str):
        raise InputError(f"{what}: {short(written)} is not a text; write it in quotes, for example {example}")
    if not written.strip():
        raise InputError(f"{what}: nothing is written; write for example {example}")
    return written.strip()


def quantity(parse: Callable[[str, str], Any], allowed: str, example: str) -> Reader:
    """A written quantity with its unit."""

    def read(written: Any, what: str) -> Any:
        if isinstance(written, int | float) and not isinstance(written, bool):
            raise InputError(f"{what}: {written} has no unit; write it in quotes, for example {example}")
        return parse(words(written, what, example), what)

    return Reader(read, allowed, example)


def duration(least_ms: int, most_ms: int, example: str) -> Reader:
    """A duration [ms] between limits."""
    allowed = f"{format_duration(least_ms)} to {format_duration(most_ms)}"

    def parse(text: str, what: str) -> int:
        time_ms = parse_duration_ms(text, what)
        if not least_ms <= time_ms <= most_ms:
            raise InputError(f"{what}: '{text}' is out of range; allowed is {allowed}")
        return time_ms

    return quantity(parse, allowed, f'"{example}"')


def height() -> Reader:
    """Lens pupil, or bare lamp, to the sheet in its tray: 10 mm to 9999 mm."""

    def parse(text: str, what: str) -> float:
        height_mm = parse_length_mm(text, what)
        if not 10 <= height_mm <= 9999:
            raise InputError(f"{what}: '{text}' is out of range; allowed is 10 mm to 9999 mm")
        return height_mm

    return quantity(parse, "10 mm to 9999 mm", '"620 mm"')


def length(example: str) -> Reader:
    """A length above zero [mm]."""
    return quantity(parse_length_mm, "above 0 mm", f'"{example}"')


def stop() -> Reader:
    """An engraved stop, or a literal f-number."""
    return quantity(parse_stop, "f/0.5 to f/1024", '"f/11"')


def density() -> Reader:
    """A neutral density [D]."""
    return quantity(parse_density_d, "0 D to 6 D", '"0.3 D"')


def sheet(example: str) -> Reader:
    """A sheet or tray by its two sides."""
    return quantity(parse_sheet, "5 mm to 3 m a side", f'"{example}"')


def name(most: int = NAME_CHARS, example: str = '"second exposure"') -> Reader:
    """A name in printable ASCII, which is what the controller stores."""
    allowed = f"1 to {most} characters of printable ASCII"

    def read(written: Any, what: str) -> str:
        text = words(written, what, example)
        if len(text) > most or not text.isascii():
            raise InputError(f"{what}: '{short(text)}' is no name; allowed is {allowed}")
        return text

    return Reader(read, allowed, example)


def free_text(example: str) -> Reader:
    """Text for people, on one or several lines."""
    return Reader(lambda written, what: " ".join(words(written, what, example).split()), "any text", example)


def label(example: str) -> Reader:
    """A short text that is printed and not compiled."""
    return Reader(lambda written, what: words(written, what, example), "up to 120 characters", example)


def shown(most: int, example: str) -> Reader:
    """Text for the display; capitals are made of it. A whole number will do: `place = 3`."""

    def read(written: Any, what: str) -> str:
        if isinstance(written, int) and not isinstance(written, bool):
            written = f"{written}"
        return display.shown(words(written, what, example), what, most)

    return Reader(read, f"1 to {most} of {display.CHARACTERS}", example)


def choice(values: Sequence[str], example: str = "") -> Reader:
    """One of a few words."""
    listed = ", ".join(f'"{value}"' for value in values)
    example = example or f'"{values[0]}"'

    def read(written: Any, what: str) -> str:
        text = words(written, what, example)
        if text not in values:
            raise InputError(f"{what}: '{short(text)}' is not one of {listed}{_close(text, values)}")
        return text

    return Reader(read, listed, example)


def _close(text: str, values: Sequence[str]) -> str:
    hint = nearest(text, list(values))
    return hint if "did you mean" in hint else ""


def flag() -> Reader:
    """true or false."""

    def read(written: Any, what: str) -> bool:
        if not isinstance(written, bool):
            raise InputError(f"{what}: {short(written)} is neither true nor false (without quotes)")
        return written

    return Reader(read, "true, false", "true")


def whole(least: int, most: int, example: str) -> Reader:
    """A whole number."""

    def read(written: Any, what: str) -> int:
        if isinstance(written, bool) or not isinstance(written, int) or not least <= written <= most:
            raise InputError(f"{what}: {short(written)}; allowed is a whole number from {least} to {most}")
        return written

    return Reader(read, f"{least} to {most}", example)


def number(least: float, most: float, example: str) -> Reader:
    """A number without unit."""

    def read(written: Any, what: str) -> float:
        if isinstance(written, bool) or not isinstance(written, int | float):
            raise InputError(f"{what}: {short(written)} is not a number; write for example {example}")
        return parse_number(written, what, least=least, most=most)

    return Reader(read, f"{least:g} to {most:g}", example)


def table(example: str) -> Reader:
    """A table or list with keys of its own, which is read by its own declaration."""
    return Reader(lambda written, what: written, "see below", example)
