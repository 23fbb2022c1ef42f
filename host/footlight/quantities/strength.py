"""Strengths of a solution, with their basis: `35 % w/w`, `30 % w/v`, `110 vol`.

A bare `30 %` is refused: for peroxide w/w and w/v differ by a tenth.
"""

from dataclasses import dataclass
from typing import Literal

from footlight.errors import InputError
from footlight.quantities.number import as_text, split_number, within

Basis = Literal["w/w", "w/v", "vol"]
_SPELLINGS: dict[str, Basis] = {
    "% w/w": "w/w",
    "% m/m": "w/w",
    "% wt": "w/w",
    "% w/v": "w/v",
    "% m/v": "w/v",
    "vol": "vol",
    "vols": "vol",
    "volume": "vol",
    "volumes": "vol",
}
_MOST: dict[Basis, float] = {"w/w": 100.0, "w/v": 150.0, "vol": 500.0}
_EXAMPLES = "for example '35 % w/w' (by weight), '30 % w/v' (g in 100 mL) or '110 vol' (volume strength)"


@dataclass(frozen=True)
class Strength:
    """How strong a solution is: `value` in % w/w, in % w/v (g in 100 mL), or in volumes of oxygen gas."""

    value: float
    basis: Basis

    def __str__(self) -> str:
        return f"{self.value:.3g} vol" if self.basis == "vol" else f"{self.value:.3g} % {self.basis}"


def parse_strength(written: object, what: str) -> Strength:
    """A strength above zero with its basis; raises `InputError` for a bare percentage and above the whole."""
    text = as_text(written, what, "35 % w/w")
    found = split_number(text)
    if found is None:
        raise InputError(f"{what}: '{text}' is not a strength; write {_EXAMPLES}")
    value, unit = found
    unit = " ".join(unit.lower().replace("%", "% ").split())
    if unit in ("", "%", "percent"):
        raise InputError(f"{what}: '{text}' does not say by what; read the label and write {_EXAMPLES}")
    if unit not in _SPELLINGS:
        raise InputError(f"{what}: '{text}' is not a strength; write {_EXAMPLES}")
    basis = _SPELLINGS[unit]
    allowed = f"above 0 up to {_MOST[basis]:g} {'vol' if basis == 'vol' else f'% {basis}'}"
    return Strength(within(value, text, what, 1e-6, _MOST[basis], allowed), basis)
