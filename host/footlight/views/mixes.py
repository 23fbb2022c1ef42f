"""Mixes in words and plain values."""

from collections.abc import Sequence

from footlight.actions.fill_tray import TrayVolume
from footlight.actions.measure_bath import MeasuredBath
from footlight.actions.mix_stock import Diluted, MixedPeroxide, PouredPeroxide
from footlight.chemistry import peroxide
from footlight.chemistry.capacity import Left
from footlight.chemistry.citric import Spoons
from footlight.chemistry.dilution import Measured
from footlight.chemistry.formula import Formula, Ingredient, amount_text
from footlight.chemistry.hazards import Hazards
from footlight.chemistry.scaled import Batch, format_mass_g
from footlight.quantities import Sheet, format_length_mm, format_percent, format_sheet, format_volume_ml
from footlight.views.hazards import hazard_lines, short_lines


def bath_lines(bath: MeasuredBath) -> list[str]:
    """What to weigh and pour, in order."""
    batch = bath.batch
    total = format_volume_ml(batch.volume_ml)
    return [
        f"{batch.formula.name}, {total}" + (f": {batch.formula.about}" if batch.formula.about else ""),
        f"  1. water, about {format_volume_ml(batch.begin_ml)} to begin with",
        *(f"  {place}. {measure}" for place, measure in enumerate(batch.measures, start=2)),
        f"  {len(batch.measures) + 2}. water to make {total}",
    ]


def bath_safety_lines(bath: MeasuredBath) -> list[str]:
    """What it does to you, and what to know before it is mixed."""
    return [*hazard_lines([bath.hazards]), "", "Before it is mixed", *short_lines(bath.stocks)]


def bath_as_dict(bath: MeasuredBath, notes: Sequence[str], kept_as: str | None) -> dict[str, object]:
    """For a script."""
    return _batch_as_dict(bath.batch) | {
        "notes": list(notes),
        "safety": [hazards.as_dict() for hazards in (bath.hazards, *bath.stocks)],
        "kept_as": kept_as,
    }


def _batch_as_dict(batch: Batch) -> dict[str, object]:
    return {
        "formula": batch.formula.name,
        "volume_ml": round(batch.volume_ml, 2),
        "begin_with_water_ml": round(batch.begin_ml, 1),
        "measures": [vars(measure) for measure in batch.measures],
    }


def diluted_lines(diluted: Diluted) -> list[str]:
    """Stock and water."""
    made = diluted.made
    stock, water, total = (
        format_volume_ml(volume) for volume in (made.stock_ml, made.water_ml, made.total_ml)
    )
    return [f"{stock} of stock + {water} of water = {total}: {made.dilution}"]


def diluted_as_dict(diluted: Diluted) -> dict[str, object]:
    """For a script."""
    made = diluted.made
    return {
        "dilution": str(made.dilution),
        "stock_ml": round(made.stock_ml, 3),
        "water_ml": round(made.water_ml, 3),
        "total_ml": round(made.total_ml, 3),
        "notes": list(diluted.notes),
        "safety": diluted.hazards.as_dict(),
    }


def which_line(made: Measured) -> str:
    """Which dilution it is, said both ways."""
    share = format_percent(100 * made.dilution.fraction)
    return f"{made.dilution.as_plus}, which is {made.dilution.as_in}: {share} of stock by volume"


def which_as_dict(made: Measured) -> dict[str, object]:
    """For a script."""
    return {
        "water_for_one_of_stock": round(made.dilution.water / made.dilution.stock, 4),
        "one_in": round(made.dilution.total / made.dilution.stock, 4),
        "percent_v_v": round(100 * made.dilution.fraction, 4),
        "total_ml": round(made.total_ml, 3),
    }


def peroxide_lines(mixed: MixedPeroxide) -> list[str]:
    """What to pour into what."""
    return [
        peroxide.poured(mixed.mix),
        f"  stock {mixed.mix.stock}",
        f"  bath  {mixed.mix.made}",
        "  water first, peroxide into it",
    ]


def peroxide_as_dict(mixed: MixedPeroxide) -> dict[str, object]:
    """For a script."""
    mix = mixed.mix
    return {
        "stock_ml": round(mix.stock_ml, 3),
        "water_ml": round(mix.water_ml, 3),
        "volume_ml": round(mix.volume_ml, 3),
        "stock": mix.stock.as_dict(),
        "made": mix.made.as_dict(),
        "notes": list(mixed.notes),
        "safety": [hazards.as_dict() for hazards in mixed.hazards],
    }


def strength_lines(poured: PouredPeroxide) -> list[str]:
    """The strength in all its ways."""
    volume = f"{format_volume_ml(poured.volume_ml)} of " if poured.volume_ml else ""
    beside = [amount_text(one, poured.formula.makes_ml) for one in _acids(poured)] if poured.formula else []
    return [f"{volume}{poured.made}", *(f"  with {amount}" for amount in beside)]


def poured_text(formula: Formula) -> str:
    """What a bath holds, in a line: `citric acid, monohydrate 45 g/L, hydrogen peroxide 10.7 % w/w`."""
    return ", ".join(amount_text(one, formula.makes_ml) for one in formula.ingredients)


def _acids(poured: PouredPeroxide) -> list[Ingredient]:
    return [one for one in poured.formula.ingredients if one.percent_ww is None] if poured.formula else []


def strength_as_dict(poured: PouredPeroxide) -> dict[str, object]:
    """For a script."""
    volume_ml = round(poured.volume_ml, 3) if poured.volume_ml else None
    holds = poured_text(poured.formula) if poured.formula else None
    return {
        **poured.made.as_dict(),
        "volume_ml": volume_ml,
        "holds": holds,
        "safety": poured.hazards.as_dict(),
    }


def citric_lines(mass_g: float, form: str, level: Spoons) -> list[str]:
    """Grams and level spoons."""
    return [f"{format_mass_g(mass_g)} {form}", f"  or {level}"]


def citric_as_dict(mass_g: float, form: str, level: Spoons, hazards: Hazards) -> dict[str, object]:
    """For a script."""
    return {
        "form": form,
        "mass_g": round(mass_g, 4),
        "level_teaspoons": level.count,
        "spoons_g": level.mass_g,
        "spoons_off_g": level.off_g,
        "safety": hazards.as_dict(),
    }


def tray_lines(filled: TrayVolume, inside: Sheet) -> list[str]:
    """Volume and depth."""
    deep = format_length_mm(filled.depth_mm or 0.0)
    return [f"{format_volume_ml(filled.volume_ml)}, {deep} deep in {format_sheet(inside)}"]


def tray_as_dict(filled: TrayVolume) -> dict[str, object]:
    """For a script."""
    note = filled.notes[0] if filled.notes else None
    return {
        "volume_ml": round(filled.volume_ml, 2),
        "depth_mm": round(filled.depth_mm or 0.0, 3),
        "note": note,
    }


def capacity_lines(left: Left, sheet: Sheet) -> list[str]:
    """How many sheets of that size are left, and why."""
    least, most = left.least_sheets / sheet.as_8x10, left.most_sheets / sheet.as_8x10
    first = f"{left.state}: {least:.0f} to {most:.0f} sheets of {sheet.name} left by area"
    return [first, *(f"  {reason}" for reason in left.reasons)]


def capacity_as_dict(left: Left, sheet: Sheet) -> dict[str, object]:
    """For a script."""
    return {
        "state": left.state,
        "least_sheets_left": round(left.least_sheets / sheet.as_8x10, 2),
        "most_sheets_left": round(left.most_sheets / sheet.as_8x10, 2),
        "sheet": sheet.name,
        "reasons": list(left.reasons),
    }
