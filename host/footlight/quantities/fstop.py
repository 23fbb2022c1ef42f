"""f-numbers as they are engraved. A mark means an exact power of √2 (ISO 517): f/11 is f/11.3137.

Written `f/11`, with a part of a stop beyond the mark as `f/11 1/2`, or `f/11 literal` where the number
itself is meant (a measured aperture, the full opening of a lens).
"""

import math
import re
from dataclasses import dataclass

from footlight.errors import InputError
from footlight.quantities.number import NUMBER, as_text, unsigned

LEAST_F_NUMBER = 0.5
MOST_F_NUMBER = 1024.0

# Engraved numbers by their place in stops from f/1. Two numbers are engraved for both a half and a third
# of a stop: 1.2 is taken as the half (1.189), 13 as the third (12.70); each is the nearer of its two.
_WHOLE = (0.5, 0.7, 1, 1.4, 2, 2.8, 4, 5.6, 8, 11, 16, 22, 32, 45, 64, 90, 128, 180, 256, 360, 512)
_THIRDS = (
    ((1.1,), (1.3,)),
    ((1.6,), (1.8,)),
    ((2.2,), (2.5,)),
    ((3.2,), (3.5, 3.6)),
    ((4.5,), (5,)),
    ((6.3,), (7.1,)),
    ((9,), (10,)),
    ((13, 12.7), (14,)),
    ((18,), (20,)),
    ((25,), (29, 28)),
    ((36,), (40,)),
    ((51, 50), (57,)),
    ((72,), (80, 81)),
)
_HALVES = (
    (1.2,),
    (1.7,),
    (2.4,),
    (3.3, 3.4),
    (4.8, 4.7),
    (6.7,),
    (9.5,),
    (13.5,),
    (19,),
    (27,),
    (38,),
    (54,),
    (76,),
)


def _marks() -> dict[float, float]:
    """Engraved number -> stops from f/1; the first spelling of each place is the one that is printed."""
    marks: dict[float, float] = {float(mark): place - 2.0 for place, mark in enumerate(_WHOLE)}
    for place, (first, second) in enumerate(_THIRDS):
        marks |= {float(mark): place + 1 / 3 for mark in first} | {
            float(mark): place + 2 / 3 for mark in second
        }
    for place, spellings in enumerate(_HALVES):
        marks |= {float(mark): place + 1 / 2 for mark in spellings}
    return marks


MARKS = _marks()
# Place in sixths of a stop -> the number that is printed for it.
_PRINTED = {round(place * 6): mark for mark, place in reversed(MARKS.items())}


@dataclass(frozen=True)
class FStop:
    """A lens opening.

    `marked` is the number that is written, `exact_value` the f-number to calculate with, `literal` says
    that the two are the same by the writer's wish, `offset_stops` [stops] is what was added to the mark
    (positive is a smaller opening).
    """

    marked: float
    exact_value: float
    literal: bool = False
    offset_stops: float = 0.0

    def __str__(self) -> str:
        return format_stop(self)

    @classmethod
    def of_number(cls, f_number: float) -> "FStop":
        """The opening with exactly this f-number, such as a measured or computed one."""
        return cls(f_number, f_number, literal=True)

    @classmethod
    def nearest(cls, f_number: float, *, parts: int = 3) -> "FStop":
        """The engraved stop nearest to `f_number` in whole stops (`parts` 1), halves (2) or thirds (3)."""
        stops = 2 * math.log2(f_number)
        on_grid = [sixths for sixths in _PRINTED if sixths * parts % 6 == 0]
        nearest = min(on_grid, key=lambda sixths: abs(sixths / 6 - stops))
        return cls(_PRINTED[nearest], _exact(nearest / 6))

    def stops_to(self, other: "FStop") -> float:
        """Light lost in going from this opening to `other` [stops]; positive where `other` is smaller."""
        return 2 * math.log2(other.exact_value / self.exact_value)


def _exact(stops_from_f1: float) -> float:
    return 2 ** (stops_from_f1 / 2)


_WRITTEN = rf"[fFƒ]\s*/?\s*(\d+(?:\.\d+)?|\.\d+)(?:\s*(literal)|\s*([+-]|\s)\s*({NUMBER})(?:\s*stops?)?)?"


def parse_stop(written: object, what: str) -> FStop:
    """An f-number from `f/11`, `f/11 1/2`, `f/11 +1/3` or `f/11.3 literal`.

    Raises `InputError` below f/0.5, above f/1024, and for a number that is no engraved stop unless it
    is written as literal.
    """
    text = as_text(written, what, "f/11")
    match = re.fullmatch(_WRITTEN, text)
    if match is None:
        raise InputError(f"{what}: '{text}' is not an f-number; write for example 'f/11' or 'f/11 1/2'")
    number, literal, sign, part = float(match[1]), bool(match[2]), match[3], match[4]
    if not LEAST_F_NUMBER <= number <= MOST_F_NUMBER:
        raise InputError(f"{what}: '{text}' is out of range; allowed is f/0.5 to f/1024")
    if literal:
        return FStop.of_number(number)
    offset = (-1 if sign == "-" else 1) * unsigned(part) if part else 0.0
    return _marked(number, offset, text, what)


def _marked(number: float, offset_stops: float, text: str, what: str) -> FStop:
    if number not in MARKS:
        near = " or ".join(f"f/{mark:g}" for mark in _neighbours(number))
        raise InputError(
            f"{what}: '{text}' is not a marked stop; write {near}, "
            f"or 'f/{number:g} literal' if that very number is meant"
        )
    if not abs(offset_stops) <= 1:
        raise InputError(f"{what}: '{text}' goes more than a stop past its mark; write the nearest mark")
    return FStop(number, _exact(MARKS[number] + offset_stops), offset_stops=offset_stops)


def _neighbours(number: float) -> list[float]:
    below = [mark for mark in _PRINTED.values() if mark < number]
    above = [mark for mark in _PRINTED.values() if mark > number]
    return ([max(below)] if below else []) + ([min(above)] if above else [])


def format_stop(stop: FStop) -> str:
    """`f/11`, `f/11 1/2`, `f/11.3 literal`: text that `parse_stop` reads back."""
    if stop.literal:
        return f"f/{stop.marked:.4g} literal"
    if not stop.offset_stops:
        return f"f/{stop.marked:g}"
    for under in (2, 3, 4, 6):
        over = abs(stop.offset_stops) * under
        if abs(over - round(over)) < 1e-9:
            part = f"{round(over)}/{under}" if under > 1 else f"{round(over)}"
            return f"f/{stop.marked:g} {'-' if stop.offset_stops < 0 else '+'}{part}"
    return f"f/{stop.marked:g} {stop.offset_stops:+.3g}"
