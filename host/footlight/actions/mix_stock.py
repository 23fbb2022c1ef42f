"""Mix from a stock: a dilution, or peroxide of a wanted strength, for a volume or from what is left."""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from footlight.actions.fill_tray import TrayVolume
from footlight.chemistry import peroxide
from footlight.chemistry.dilution import Measured, for_volume, from_stock, misread
from footlight.chemistry.formula import Formula
from footlight.chemistry.hazards import Hazards, hazards_for
from footlight.chemistry.poured import Part, formula_of_parts
from footlight.errors import InputError, field
from footlight.quantities import Dilution, format_volume_ml

_PEROXIDE = "hydrogen peroxide"


@dataclass(frozen=True)
class Diluted:
    """A dilution to be poured, what to know about it, and what it does to you."""

    made: Measured
    notes: tuple[str, ...]
    hazards: Hazards


@dataclass(frozen=True)
class MixedPeroxide:
    """Peroxide to be poured, what to know about it, and what bath and stock do to you."""

    mix: peroxide.Mix
    notes: tuple[str, ...]
    hazards: tuple[Hazards, ...]


@dataclass(frozen=True)
class PouredPeroxide:
    """What strength was poured together. volume_ml: None where none was said [mL]. formula: the bath that it
    is, None for a strength by itself."""

    made: peroxide.Solution
    volume_ml: float | None
    hazards: Hazards
    formula: Formula | None = None


def dilute(
    dilution: Dilution, asked: TrayVolume | None, left_ml: float | None, stock: str, *, as_plus: bool = False
) -> Diluted:
    """For a volume, or from what is left of the stock [mL]. stock: what it is. as_plus: written `1 + 9`.

    Raises InputError.
    """
    _one(asked, left_ml)
    made = for_volume(dilution, asked.volume_ml) if asked else from_stock(dilution, left_ml or 0.0)
    notes = (*(asked.notes if asked else ()), *(_misread(made) if as_plus else ()))
    return Diluted(made, notes, hazards_for(stock))


def mix_peroxide(
    stock_ww: float, wanted_ww: float, asked: TrayVolume | None, left_ml: float | None
) -> MixedPeroxide:
    """Strengths in % w/w; for a volume, or from what is left of the stock [mL]. Raises InputError."""
    _one(asked, left_ml)
    if asked:
        mix = peroxide.for_volume(stock_ww, wanted_ww, asked.volume_ml)
    else:
        mix = peroxide.from_stock(stock_ww, wanted_ww, left_ml or 0.0)
    hazards = tuple(hazards_for(_PEROXIDE, ww) for ww in dict.fromkeys((mix.made.ww, mix.stock.ww)))
    return MixedPeroxide(mix, asked.notes if asked else (), hazards)


def pour_together(parts: Iterable[Part]) -> PouredPeroxide:
    """What peroxide, water and citric acid make. Raises InputError for no peroxide, or no liquid."""
    formula = formula_of_parts(parts)
    ww = sum(one.percent_ww or 0.0 for one in formula.ingredients)
    poured = _poured(peroxide.Solution(ww), formula.makes_ml)
    return replace(poured, formula=formula, hazards=hazards_for(formula))


def one_strength(made: peroxide.Solution) -> PouredPeroxide:
    """A strength by itself, said in all its ways. Raises InputError for water."""
    return _poured(made, None)


def _poured(made: peroxide.Solution, volume_ml: float | None) -> PouredPeroxide:
    if not made.ww:
        raise InputError("mix: water alone; give at least one part of peroxide, '35 % w/w, 100 mL'")
    return PouredPeroxide(made, volume_ml, hazards_for(_PEROXIDE, made.ww))


def _one(asked: TrayVolume | None, left_ml: float | None) -> None:
    if (asked is None) == (left_ml is None):
        raise InputError(
            f"{field('volume')}: give a volume, a tray, or what is left in the bottle with {field('left')}:"
            " just one"
        )


def _misread(made: Measured) -> list[str]:
    """`1 + 9` and `1 in 9` are a tenth apart: say what the other reading would have been."""
    ratio = misread(made.dilution)
    if ratio is None:
        return []
    wrong_ml = made.total_ml * made.dilution.stock / made.dilution.water
    other = f"1 in {made.dilution.water / made.dilution.stock:g}"
    return [
        f"Read as '{other}' it would be {format_volume_ml(wrong_ml)} of stock, {100 * (ratio - 1):.1f} %"
        " too much."
    ]
