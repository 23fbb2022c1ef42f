"""Measure out a whole bath by its formula: what to weigh and pour, and what to wear."""

from dataclasses import dataclass

from footlight.chemistry.formula import Formula
from footlight.chemistry.hazards import Hazards, hazards_for, hazards_of_stocks
from footlight.chemistry.scaled import AtHand, Batch, scaled


@dataclass(frozen=True)
class MeasuredBath:
    """A bath to be mixed. stocks: hazards of what goes into it."""

    batch: Batch
    hazards: Hazards
    stocks: tuple[Hazards, ...]


def measure_bath(formula: Formula, volume_ml: float, at_hand: AtHand) -> MeasuredBath:
    """For a volume [mL], from what is at hand. Raises InputError for what cannot be made so."""
    batch = scaled(formula, volume_ml, at_hand)
    stocks = tuple(hazards_of_stocks(formula, at_hand.stock_ww))
    return MeasuredBath(batch, hazards_for(formula), stocks)
