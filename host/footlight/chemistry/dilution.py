"""Measuring out a dilution, and naming the dilution that odd amounts made."""

from dataclasses import dataclass

from footlight.errors import InputError
from footlight.quantities import Dilution


@dataclass(frozen=True)
class Measured:
    """A dilution measured out. Volumes are taken to add up, which for photographic concentrates they do
    within the reading of a measure (common practice, no source). stock_ml, water_ml [mL]."""

    dilution: Dilution
    stock_ml: float
    water_ml: float

    @property
    def total_ml(self) -> float:
        """The whole [mL]."""
        return self.stock_ml + self.water_ml


def for_volume(dilution: Dilution, volume_ml: float) -> Measured:
    """Stock and water for `volume_ml` [mL] of working solution. Raises `InputError` for zero or less."""
    above_zero(volume_ml, "volume wanted", "mL", "1 L")
    stock_ml = volume_ml * dilution.fraction
    return Measured(dilution, stock_ml, volume_ml - stock_ml)


def from_stock(dilution: Dilution, stock_ml: float) -> Measured:
    """The same from what is left in the bottle [mL]. Raises `InputError` for zero or less."""
    above_zero(stock_ml, "stock left", "mL", "100 mL")
    return Measured(dilution, stock_ml, stock_ml * dilution.water / dilution.stock)


def of_amounts(stock_ml: float, water_ml: float) -> Measured:
    """What dilution this is: `stock_ml` [mL] to which `water_ml` [mL] was added.

    Raises `InputError` for no stock or less than no water.
    """
    above_zero(stock_ml, "stock", "mL", "37 mL")
    if not 0 <= water_ml < float("inf"):
        raise InputError(f"water: {water_ml:g} mL is less than none, for example '410 mL'")
    return Measured(Dilution(stock_ml, water_ml), stock_ml, water_ml)


def misread(dilution: Dilution) -> float | None:
    """How much too strong `1 + n` comes out read as `1 in n` [ratio]; None where it cannot be misread."""
    return dilution.total / dilution.water if dilution.water > dilution.stock else None


def above_zero(value: float, what: str, unit: str, example: str) -> None:
    """Raises `InputError` unless `value` [unit] is a number above zero."""
    if not 0 < value < float("inf"):
        raise InputError(f"{what}: {value:g} {unit} must be more than zero, for example '{example}'")
