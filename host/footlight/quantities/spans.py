"""Numbers of sheets as a person writes them: `30-41 45`, and back."""

import re
from collections.abc import Iterable

from footlight.errors import InputError

_MOST = 10_000


def spans(numbers: Iterable[int]) -> str:
    """1, 2, 3, 7 -> `1–3, 7`."""
    found: list[list[int]] = []
    for number in numbers:
        if found and number == found[-1][1] + 1:
            found[-1][1] = number
        else:
            found.append([number, number])
    return ", ".join(f"{first}" if first == last else f"{first}–{last}" for first, last in found)


def read_spans(words: Iterable[str]) -> list[int]:
    """`30-41`, `45` -> each number once, in order. Raises InputError."""
    numbers: set[int] = set()
    for word in words:
        found = re.fullmatch(r"(\d{1,7})(?:[-–](\d{1,7}))?,?", word)
        first, last = (int(found[1]), int(found[2] or found[1])) if found else (0, 0)
        if not 1 <= first <= last or last - first >= _MOST:
            raise InputError(f"NUMBER: '{word}' is no number of a sheet; write for example '41' or '30-41'")
        numbers |= set(range(first, last + 1))
    return sorted(numbers)
