"""Lists of readings: `"4 min, 2.09 D" "8 min, 2.04 D"`."""

from collections.abc import Callable, Iterable

from footlight.errors import InputError

Reader = Callable[[str, str], float]


def rows(
    texts: Iterable[str], readers: tuple[Reader, ...], noun: str, example: str
) -> list[tuple[float, ...]]:
    """Each text split at its commas, each part read by its own reader; errors name the place in the list."""
    found = []
    for number, text in enumerate(texts, start=1):
        split = [part.strip() for part in text.split(",")]
        what = f"{noun} {number}"
        if len(split) != len(readers):
            raise InputError(
                f"{what}: '{text}' has {len(split)} part(s); write {len(readers)}, for example {example}"
            )
        found.append(tuple(reader(part, what) for reader, part in zip(readers, split, strict=True)))
    return found


def pairs(
    texts: Iterable[str], first: Reader, second: Reader, noun: str, example: str
) -> list[tuple[float, float]]:
    """The same for two parts."""
    return [(row[0], row[1]) for row in rows(texts, (first, second), noun, example)]
