"""Hydrogen peroxide: from the bottle's strength to the bath's, through the density of the solution.

Amounts are weighed in the sums and poured in the answers: a mix conserves mass, not volume. The density
table is for 18 °C (Perry's Chemical Engineers' Handbook, after the International Critical Tables; from
memory, held to ± 0.003 g/mL). A warm solution is lighter by a few parts in a thousand, stock and bath
alike, which is less than a measure is read to.
"""

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from footlight.chemistry.dilution import above_zero
from footlight.chemistry.interpolate import Curve
from footlight.errors import InputError
from footlight.quantities import Strength, format_percent, format_volume_ml

MOLAR_G = 34.0147  # g/mol; IUPAC atomic weights
GAS_ML = 22413.97  # mL/mol of an ideal gas at 0 °C and 101.325 kPa; CODATA
# Two H2O2 give one O2: mL of gas for each g.
GAS_ML_PER_G = GAS_ML / (2 * MOLAR_G)

# % w/w -> g/mL at 18 °C. The row of 0 is water.
_DENSITY_ROWS = (
    (0.0, 0.9986), (2.0, 1.0058), (4.0, 1.0131), (6.0, 1.0204), (8.0, 1.0277), (10.0, 1.0351),
    (12.0, 1.0425), (14.0, 1.0499), (16.0, 1.0574), (18.0, 1.0649), (20.0, 1.0725), (22.0, 1.0802),
    (24.0, 1.0880), (26.0, 1.0959), (28.0, 1.1040), (30.0, 1.1122), (35.0, 1.1327), (40.0, 1.1536),
    (45.0, 1.1749), (50.0, 1.1966),
)  # fmt: skip
DENSITY = Curve(_DENSITY_ROWS)
MOST_WW = DENSITY.most
WATER_G_ML = _DENSITY_ROWS[0][1]


@dataclass(frozen=True)
class Solution:
    """A peroxide solution, said in all three ways. ww [% w/w]."""

    ww: float

    @property
    def density_g_ml(self) -> float:
        """Density at 18 °C [g/mL]."""
        return density_g_ml(self.ww)

    @property
    def wv(self) -> float:
        """Strength [% w/v, g in 100 mL]."""
        return self.ww * self.density_g_ml

    @property
    def volumes(self) -> float:
        """Volume strength: mL of oxygen from each mL when it has all decomposed."""
        return GAS_ML_PER_G * self.wv / 100

    def __str__(self) -> str:
        return f"{format_percent(self.ww)} w/w = {format_percent(self.wv)} w/v = {self.volumes:.3g} vol"

    def as_dict(self) -> dict[str, float]:
        """For `--json`."""
        return {
            "percent_ww": round(self.ww, 4),
            "percent_wv": round(self.wv, 4),
            "volume_strength": round(self.volumes, 3),
            "density_g_ml": round(self.density_g_ml, 4),
        }


@dataclass(frozen=True)
class Mix:
    """Stock and water to pour [mL], and what they make: `volume_ml` [mL] of `made`."""

    stock: Solution
    stock_ml: float
    water_ml: float
    volume_ml: float
    made: Solution


def density_g_ml(percent_ww: float) -> float:
    """Density [g/mL] at 18 °C of a solution of `percent_ww` [% w/w], 0 to 50.

    Raises `InputError` outside the table: stronger peroxide is an oxidiser and has no place in a darkroom.
    """
    if not DENSITY.least <= percent_ww <= MOST_WW:
        raise InputError(
            f"peroxide: {percent_ww:.4g} % w/w is outside the density table;"
            f" allowed is 0 to {MOST_WW:g} % w/w"
        )
    return DENSITY.at(percent_ww)


def solution(strength: Strength, what: str) -> Solution:
    """A written strength as a `Solution`; raises `InputError` beyond the density table (50 % w/w)."""
    if strength.basis == "w/w":
        found = strength.value
    else:
        as_written: Callable[[Solution], float] = (
            (lambda made: made.wv) if strength.basis == "w/v" else (lambda made: made.volumes)
        )
        found = _ww_where(as_written, strength.value)
    if found is None or found > MOST_WW:
        most = Solution(MOST_WW)
        raise InputError(
            f"{what}: {strength} is outside the density table; allowed is above 0 up to {MOST_WW:g} % w/w"
            f" ({most.wv:.3g} % w/v, {most.volumes:.3g} vol)"
        )
    return Solution(found)


def _ww_where(measure: Callable[[Solution], float], value: float) -> float | None:
    """The % w/w whose `measure` is `value`, by halving: all measures rise with strength."""
    low, high = 0.0, MOST_WW
    if measure(Solution(high)) < value:
        return None
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if measure(Solution(middle)) < value else (low, middle)
    return (low + high) / 2


def for_volume(stock_ww: float, wanted_ww: float, volume_ml: float) -> Mix:
    """Stock and water for `volume_ml` [mL] of `wanted_ww` [% w/w] from a stock of `stock_ww` [% w/w].

    Raises `InputError` where more is wanted than the stock has, outside the table, and for no volume.
    """
    stock, made = _checked(stock_ww, wanted_ww)
    above_zero(volume_ml, "volume wanted", "mL", "1 L")
    mass_g = volume_ml * made.density_g_ml
    stock_g = mass_g * wanted_ww / stock_ww
    return Mix(stock, stock_g / stock.density_g_ml, (mass_g - stock_g) / WATER_G_ML, volume_ml, made)


def from_stock(stock_ww: float, wanted_ww: float, stock_ml: float) -> Mix:
    """The most that `stock_ml` [mL] left in the bottle makes. Raises `InputError` as `for_volume` does."""
    stock, made = _checked(stock_ww, wanted_ww)
    above_zero(stock_ml, "stock left", "mL", "150 mL")
    stock_g = stock_ml * stock.density_g_ml
    mass_g = stock_g * stock_ww / wanted_ww
    return Mix(stock, stock_ml, (mass_g - stock_g) / WATER_G_ML, mass_g / made.density_g_ml, made)


def _checked(stock_ww: float, wanted_ww: float) -> tuple[Solution, Solution]:
    if not 0 < wanted_ww <= 100:
        raise InputError(f"strength wanted: {wanted_ww:g} % w/w; allowed is above 0 up to {MOST_WW:g} % w/w")
    density_g_ml(stock_ww)
    if wanted_ww > stock_ww:
        raise InputError(
            f"strength wanted: {format_percent(wanted_ww)} w/w is more than the stock has"
            f" ({format_percent(stock_ww)} w/w); allowed is up to the stock's own strength"
        )
    return Solution(stock_ww), Solution(wanted_ww)


def of_parts(parts: Iterable[tuple[float, float]]) -> tuple[Solution, float]:
    """What a mix really is: (strength, volume [mL]) of parts (% w/w, mL) poured together; 0 % w/w is water.

    Raises `InputError` for no parts, no volume, or a part outside the table.
    """
    total_g = peroxide_g = 0.0
    for ww, part_ml in parts:
        above_zero(part_ml, "part of the mix", "mL", "100 mL")
        mass_g = part_ml * density_g_ml(ww)
        total_g += mass_g
        peroxide_g += mass_g * ww / 100
    if not total_g:
        raise InputError(
            "mix: no parts; give stock and water, for example '35 % w/w, 100 mL' 'water, 900 mL'"
        )
    made = Solution(100 * peroxide_g / total_g)
    return made, total_g / made.density_g_ml


def poured(mix: Mix) -> str:
    """`310 mL of 30 % w/w and 691 mL of water make 1000 mL of 10 % w/w`."""
    return (
        f"{format_volume_ml(mix.stock_ml)} of {format_percent(mix.stock.ww)} w/w and"
        f" {format_volume_ml(mix.water_ml)} of water make {format_volume_ml(mix.volume_ml)} of"
        f" {format_percent(mix.made.ww)} w/w"
    )
