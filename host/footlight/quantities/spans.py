"""Numbers of sheets as a person writes them: `30-41 45`, and back."""

import re
from collections.abc import Iterable

from footlight.errors import InputError

_MOST = 10_000


def format_spans(numbers: Iterable[int]) -> str:
    """1, 2, 3, 7 -> `1–3, 7`."""
    runs: list[list[int]] = []
    for number in numbers:
        if runs and number == runs[-1][1] + 1:
            runs[-1][1] = number
        else:
            runs.append([number, number])
    return ", ".join(f"{first}" if first == last else f"{first}–{last}" for first, last in runs)


def parse_spans(words: Iterable[str], what: str) -> list[int]:
    """`30-41`, `45` -> each number once, in order. Raises InputError."""
    numbers: set[int] = set()
    for word in words:
        match = re.fullmatch(r"(\d{1,7})(?:[-–](\d{1,7}))?,?", word)
        first, last = (int(match[1]), int(match[2] or match[1])) if match else (0, 0)
        if not 1 <= first <= last or last - first >= _MOST:
            raise InputError(f"{what}: '{word}' is no number of a sheet; write for example '41' or '30-41'")
        numbers |= set(range(first, last + 1))
    return sorted(numbers)
