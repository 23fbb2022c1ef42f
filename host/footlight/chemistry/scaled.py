"""A whole bath formula, for the volume that is wanted: what to weigh and pour, in order."""

from dataclasses import dataclass

from footlight.chemistry import citric, peroxide
from footlight.chemistry.dilution import above_zero
from footlight.chemistry.formula import CITRIC, Formula, Ingredient
from footlight.errors import InputError
from footlight.quantities import format_percent, format_volume_ml

# A bath is begun in about this much of its water, so that there is room to dissolve and to fill up.
_BEGIN_WITH = 0.7


@dataclass(frozen=True)
class Measure:
    """One line of the mixing: mass [g] or volume [mL] of `what`; `remark` says what it rests on."""

    what: str
    mass_g: float | None
    volume_ml: float | None
    remark: str = ""

    @property
    def amount(self) -> str:
        """`21.9 g citric acid monohydrate`."""
        amount = format_mass_g(self.mass_g) if self.mass_g else format_volume_ml(self.volume_ml or 0.0)
        return f"{amount} {self.what}"

    def __str__(self) -> str:
        return f"{self.amount}; {self.remark}" if self.remark else self.amount


@dataclass(frozen=True)
class Batch:
    """A bath to be mixed. begin_ml: water to begin with [mL]. rest_ml: about what is left to fill up with."""

    formula: Formula
    volume_ml: float
    begin_ml: float
    measures: tuple[Measure, ...]


@dataclass(frozen=True)
class AtHand:
    """What is on the shelf. stock_ww: the peroxide bottle's strength [% w/w]. form: of the citric acid."""

    stock_ww: float | None = None
    form: citric.Form | None = None


def scaled(formula: Formula, volume_ml: float, at_hand: AtHand | None = None) -> Batch:
    """Every amount of a formula for `volume_ml` [mL] of bath.

    Peroxide is counted as a bath of water and peroxide alone: salts and acid beside it change its
    strength by less than they change the bath's weight. Raises `InputError` for no volume, and for a
    formula with peroxide where the stock's strength is not given or too low.
    """
    above_zero(volume_ml, "volume wanted", "mL", "1 L")
    on_shelf = at_hand or AtHand()
    share = volume_ml / formula.makes_ml
    measures = tuple(_measure(one, share, volume_ml, on_shelf) for one in formula.ingredients)
    room_ml = volume_ml - sum(measure.volume_ml or 0.0 for measure in measures)
    return Batch(formula, volume_ml, min(_BEGIN_WITH * volume_ml, room_ml), measures)


def _measure(one: Ingredient, share: float, volume_ml: float, on_shelf: AtHand) -> Measure:
    if one.percent_ww is not None:
        return _peroxide(one, volume_ml, on_shelf)
    if one.dilution is not None:
        return Measure(one.what, None, volume_ml * one.dilution.fraction, _remark(str(one.dilution), one))
    if one.volume_ml is not None:
        return Measure(one.what, None, one.volume_ml * share, one.note)
    mass_g = (one.mass_g or 0.0) * share
    if one.what == CITRIC and one.form is not None:
        return _citric(one, mass_g, one.form, on_shelf.form or one.form)
    return Measure(one.what, mass_g, None, one.note)


def _peroxide(one: Ingredient, volume_ml: float, on_shelf: AtHand) -> Measure:
    if on_shelf.stock_ww is None:
        raise InputError(
            "stock: the strength of the peroxide bottle is not given; read its label, for example '35 % w/w'"
        )
    wanted_ww = one.percent_ww or 0.0
    mix = peroxide.for_volume(on_shelf.stock_ww, wanted_ww, volume_ml)
    remark = f"{format_percent(wanted_ww)} w/w in the bath"
    return Measure(
        f"{one.what} {format_percent(on_shelf.stock_ww)} w/w", None, mix.stock_ml, _remark(remark, one)
    )


def _citric(one: Ingredient, mass_g: float, form: citric.Form, have: citric.Form) -> Measure:
    grams = citric.converted_g(mass_g, form, have)
    return Measure(f"{one.what} {have}", grams, None, _remark(f"or about {citric.spoons(grams)}", one))


def _remark(first: str, one: Ingredient) -> str:
    return f"{first}; {one.note}" if one.note else first


def format_mass_g(mass_g: float) -> str:
    """A mass [g] as a balance for a darkroom shows it: `2.00 g`, `21.9 g`, `125 g`."""
    if mass_g >= 100:
        return f"{mass_g:.0f} g"
    return f"{mass_g:.1f} g" if mass_g >= 10 else f"{mass_g:.2f} g"
