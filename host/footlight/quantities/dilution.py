"""Dilutions as the trade writes them: `1 + 9` is one part and nine of water, `1 in 10` one part in ten.

`1:9` is read both ways by different people, and one of them is a tenth too strong; so it is asked about.
"""

import re
from dataclasses import dataclass

from footlight.errors import InputError
from footlight.quantities.number import NUMBER, as_text, unsigned

_MOST_PARTS = 10_000.0
_PLUS = rf"({NUMBER})\s*\+\s*({NUMBER})"
_IN = rf"({NUMBER})\s+in\s+({NUMBER})"
_RATIO = rf"({NUMBER})\s*[:/]\s*({NUMBER})"
_EXAMPLES = "for example '1 + 9' (one part and nine of water) or '1 in 10' (one part made up to ten)"


@dataclass(frozen=True)
class Dilution:
    """Parts by volume of stock and of water; no water is the stock as it is."""

    stock: float
    water: float

    @property
    def total(self) -> float:
        """All parts together."""
        return self.stock + self.water

    @property
    def fraction(self) -> float:
        """Stock in the whole, 0 to 1."""
        return self.stock / self.total

    @property
    def as_plus(self) -> str:
        """`1 + 9`: one part of stock, and the water added to it."""
        return f"1 + {_number(self.water / self.stock)}"

    @property
    def as_in(self) -> str:
        """`1 in 10`: one part of stock in that many of the whole."""
        return f"1 in {_number(self.total / self.stock)}"

    def __str__(self) -> str:
        return f"{self.as_plus} ({self.as_in})"


def _number(value: float) -> str:
    return f"{round(value, 2 if value < 10 else 1):g}"


def parse_dilution(written: object, what: str) -> Dilution:
    """A dilution from `1 + 9` or `1 in 10`.

    Raises `InputError` for `1:9`, which is read both ways, for no stock, and for a part above its whole.
    """
    text = as_text(written, what, "1 + 9")
    if plus := re.fullmatch(_PLUS, text):
        return _checked(unsigned(plus[1]), unsigned(plus[2]), text, what)
    if within := re.fullmatch(_IN, text):
        part, whole = unsigned(within[1]), unsigned(within[2])
        return _checked(part, whole - part, text, what)
    if ratio := re.fullmatch(_RATIO, text):
        first, second = ratio[1], ratio[2]
        raise InputError(
            f"{what}: '{text}' is read two ways; write '{first} + {second}' (so much stock, so much water)"
            f" or '{first} in {second}' (so much stock made up to the whole)"
        )
    raise InputError(f"{what}: '{text}' is not a dilution; write {_EXAMPLES}")


def _checked(stock: float, water: float, text: str, what: str) -> Dilution:
    if not 0 < stock <= _MOST_PARTS:
        raise InputError(f"{what}: '{text}' has no stock in it, or too many parts; write {_EXAMPLES}")
    if water < 0:
        raise InputError(f"{what}: '{text}' has more stock than the whole; write {_EXAMPLES}")
    if water > _MOST_PARTS * stock:
        raise InputError(f"{what}: '{text}' is out of range; allowed is up to 1 + {_MOST_PARTS:g}")
    return Dilution(stock, water)
