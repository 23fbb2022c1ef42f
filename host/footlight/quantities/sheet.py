"""Sheet sizes: `8x10` (a trade size in inches), `203 x 254 mm`, `20 x 25 cm`."""

import math
import re
from dataclasses import dataclass

from footlight.errors import InputError
from footlight.quantities.number import as_text

_UNITS_MM = {"mm": 1.0, "cm": 10.0, "in": 25.4, "inch": 25.4, "inches": 25.4}

# Sizes that the trade names by two bare numbers, in inches. Others need a unit: 18x24 might be either.
_TRADE_SIZES_IN = {
    (3.25, 4.25),
    (4.0, 5.0),
    (5.0, 7.0),
    (6.5, 8.5),
    (7.0, 17.0),
    (8.0, 10.0),
    (8.0, 20.0),
    (10.0, 12.0),
    (11.0, 14.0),
    (12.0, 16.0),
    (12.0, 20.0),
    (14.0, 17.0),
    (16.0, 20.0),
    (20.0, 24.0),
}
_LEAST_MM, _MOST_MM = 5.0, 3000.0
_WRITTEN = r"(\d+(?:\.\d+)?)\s*(mm|cm|in)?\s*[xX×]\s*(\d+(?:\.\d+)?)\s*([a-z]+|\")?"
_EXAMPLE = "for example '8x10', '203 x 254 mm' or '20 x 25 cm'"


@dataclass(frozen=True)
class Sheet:
    """A sheet of paper: its two sides [mm] in the order written, and the name by which it was asked for."""

    width_mm: float
    height_mm: float
    name: str

    @property
    def diagonal_mm(self) -> float:
        """Corner to corner [mm]."""
        return math.hypot(self.width_mm, self.height_mm)

    @property
    def area_cm2(self) -> float:
        """Area [cm²]."""
        return self.width_mm * self.height_mm / 100

    @property
    def as_8x10(self) -> float:
        """Area in sheets of 8x10 inches, the measure of bath capacity."""
        return self.area_cm2 / (20.32 * 25.4)


def parse_sheet(written: object, what: str) -> Sheet:
    """A sheet from its two sides, 5 mm to 3 m each; raises `InputError` for anything else."""
    text = as_text(written, what, "8x10")
    match = re.fullmatch(_WRITTEN, text.lower())
    if match is None:
        raise InputError(f"{what}: '{text}' is not a sheet size; write two sides, {_EXAMPLE}")
    first, second = float(match[1]), float(match[3])
    if match[2] and match[4] and match[2] != match[4]:
        raise InputError(f"{what}: '{text}' has two units; write both sides in one, {_EXAMPLE}")
    scale = _scale_mm(match[4] or match[2], (first, second), text, what)
    width_mm, height_mm = first * scale, second * scale
    if not all(_LEAST_MM <= side <= _MOST_MM for side in (width_mm, height_mm)):
        raise InputError(f"{what}: '{text}' is out of range; allowed is 5 mm to 3000 mm a side, {_EXAMPLE}")
    return Sheet(width_mm, height_mm, " ".join(text.split()))


def _scale_mm(unit: str | None, sides: tuple[float, float], text: str, what: str) -> float:
    if unit in ("in", '"') or (unit is None and (min(sides), max(sides)) in _TRADE_SIZES_IN):
        return _UNITS_MM["in"]
    if unit is None:
        raise InputError(f"{what}: '{text}' has no unit and is no trade size in inches; write {_EXAMPLE}")
    if unit not in _UNITS_MM:
        raise InputError(f"{what}: '{text}' is not in mm, cm or in; write {_EXAMPLE}")
    return _UNITS_MM[unit]


def format_sheet(sheet: Sheet) -> str:
    """`8x10 (203 x 254 mm)`; only the millimetres where the name already says them."""
    sides = f"{sheet.width_mm:.0f} x {sheet.height_mm:.0f} mm"
    return sides if "mm" in sheet.name else f"{sheet.name} ({sides})"
