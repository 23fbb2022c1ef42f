"""Peroxide against handbook densities, molar masses, gas volumes and another library's interpolation."""

import pytest
from CoolProp.CoolProp import PropsSI
from hypothesis import given
from hypothesis import strategies as st
from periodictable import formulas
from scipy import constants
from scipy.interpolate import PchipInterpolator

from footlight.chemistry import peroxide
from footlight.chemistry.interpolate import Curve
from footlight.errors import InputError
from footlight.quantities import Strength

strengths = st.floats(0.5, 50)


# % w/w -> g/mL at 18 °C (3 % at 20 °C): Perry's Handbook / International Critical Tables, from memory.
@pytest.mark.parametrize(
    ("ww", "density", "g_per_l"),
    [(3, 1.0095, 30.3), (10, 1.0351, 103.5), (30, 1.1122, 333.7), (35, 1.1327, 396.4), (50, 1.1966, 598.3)],
)
def test_densities(ww, density, g_per_l):
    found = peroxide.Solution(ww)
    assert found.density_g_ml == pytest.approx(density, abs=0.003)
    # The same in g/L: exact arithmetic from the density.
    assert 10 * found.wv == pytest.approx(g_per_l, abs=10 * ww * 0.003)


def test_no_peroxide_is_water():
    water = PropsSI("D", "T", 273.15 + 18, "P", 101325, "Water") / 1000
    assert peroxide.density_g_ml(0) == pytest.approx(water, abs=1e-4)
    assert PropsSI("D", "T", 273.15 + 20, "P", 101325, "Water") == pytest.approx(998.207, abs=0.01)


@given(st.floats(0, 50))
def test_the_curve_is_scipys(ww):
    rows = peroxide._DENSITY_ROWS
    witness = PchipInterpolator([x for x, _ in rows], [y for _, y in rows])
    assert peroxide.density_g_ml(ww) == pytest.approx(float(witness(ww)), abs=1e-12)


@given(
    st.lists(st.tuples(st.floats(0.1, 5), st.one_of(st.just(0.0), st.floats(-5, 5))), min_size=3, max_size=8),
    st.floats(0, 1),
)
def test_any_curve_is_scipys(steps, at):
    x, y, rows = 0.0, 0.0, []
    for step, rise in steps:
        x, y = x + step, y + (rise if abs(rise) > 1e-6 else 0.0)
        rows.append((x, y))
    where = rows[0][0] + at * (rows[-1][0] - rows[0][0])
    witness = PchipInterpolator([x for x, _ in rows], [y for _, y in rows])
    assert Curve(rows).at(where) == pytest.approx(float(witness(where)), rel=1e-9, abs=1e-9)


@given(st.floats(0, 50), st.floats(0, 50))
def test_density_rises_with_strength(one, other):
    low, high = sorted((one, other))
    assert peroxide.density_g_ml(low) <= peroxide.density_g_ml(high)


@pytest.mark.parametrize("rows", [[(0, 1), (1, 2)], [(0, 1), (0, 2), (1, 3)]])
def test_a_curve_that_is_none(rows):
    with pytest.raises(ValueError, match="x rising"):
        Curve(rows)


def test_a_curve_ends_where_its_table_ends():
    with pytest.raises(ValueError, match="outside 0 to 2"):
        Curve([(0, 0), (1, 1), (2, 2)]).at(2.1)


# H2O2 34.0147 g/mol: periodictable. 22413.97 mL/mol: CODATA, by scipy at 273.15 K and 101.325 kPa.
def test_volume_strength_from_molar_values():
    assert pytest.approx(formulas.formula("H2O2").mass, abs=0.001) == peroxide.MOLAR_G
    molar_ml = constants.R * 273.15 / 101325 * 1e6
    assert pytest.approx(molar_ml, abs=0.05) == peroxide.GAS_ML
    assert pytest.approx(329.47, abs=0.01) == peroxide.GAS_ML_PER_G


# 35 % = 130.6 vol, 30 % = 109.9 vol: exact from the rows above.
@pytest.mark.parametrize(("ww", "volumes"), [(35, 130.6), (30, 109.9)])
def test_volume_strength(ww, volumes):
    assert peroxide.Solution(ww).volumes == pytest.approx(volumes, abs=0.06)
    assert peroxide.solution(Strength(volumes, "vol"), "s").ww == pytest.approx(ww, abs=0.02)


# 1 L at 10 % w/w from 30 % w/w: 310.2 mL of stock. Exact from the densities.
def test_ten_per_cent_from_thirty():
    mix = peroxide.for_volume(30, 10, 1000)
    assert mix.stock_ml == pytest.approx(310.2, abs=0.05)
    # Water as the rest, by mass: 1035.1 − 345.03 = 690.07 g, at 0.9986 g/mL.
    assert mix.water_ml == pytest.approx(691.0, abs=0.1)


# 1 + 2 by volume from 30 % w/w: 10.73 % w/w, not a naive 10 %. Exact from the densities.
def test_one_plus_two_is_not_a_third():
    made, volume_ml = peroxide.of_parts([(30, 100), (0, 200)])
    assert made.ww == pytest.approx(10.73, abs=0.005)
    assert 299 < volume_ml < 300


@given(strengths, st.floats(0.01, 1), st.floats(10, 20_000))
def test_a_mix_has_the_strength_that_was_asked_for(stock, share, volume_ml):
    mix = peroxide.for_volume(stock, stock * share, volume_ml)
    if mix.water_ml > 1e-6:
        made, got_ml = peroxide.of_parts([(stock, mix.stock_ml), (0, mix.water_ml)])
        assert made.ww == pytest.approx(stock * share, rel=1e-9)
        assert got_ml == pytest.approx(volume_ml, rel=1e-9)
    back = peroxide.from_stock(stock, stock * share, mix.stock_ml)
    assert (back.volume_ml, back.water_ml) == pytest.approx((volume_ml, mix.water_ml), rel=1e-9, abs=1e-6)


@given(strengths, st.sampled_from(["w/w", "w/v", "vol"]))
def test_any_way_of_saying_it_comes_back(ww, basis):
    made = peroxide.Solution(ww)
    said = {"w/w": made.ww, "w/v": made.wv, "vol": made.volumes}[basis]
    assert peroxide.solution(Strength(said * (1 - 1e-12), basis), "s").ww == pytest.approx(ww, rel=1e-6)


@given(st.floats(1, 40), st.floats(1, 10), st.floats(100, 5000))
def test_a_weaker_stock_needs_more_of_it(wanted, more, volume_ml):
    strong = peroxide.for_volume(wanted + more, wanted, volume_ml)
    weak = peroxide.for_volume(wanted + more / 2, wanted, volume_ml)
    assert weak.stock_ml > strong.stock_ml


@pytest.mark.parametrize(
    ("ask", "says"),
    [
        (lambda: peroxide.for_volume(30, 35, 1000), r"35 % w/w is more than the stock has \(30 % w/w\)"),
        (
            lambda: peroxide.for_volume(60, 10, 1000),
            r"60 % w/w is outside the density table; allowed is 0 to 50",
        ),
        (lambda: peroxide.for_volume(30, 0, 1000), "strength wanted: 0 %"),
        (lambda: peroxide.for_volume(30, 101, 1000), "strength wanted: 101 %"),
        (lambda: peroxide.for_volume(30, 10, 0), "volume wanted: 0 mL must be more than zero"),
        (lambda: peroxide.from_stock(30, 10, -5), "stock left: -5 mL must be more than zero"),
        (lambda: peroxide.of_parts([]), "no parts"),
        (lambda: peroxide.of_parts([(30, 0)]), "part of the mix: 0 mL"),
        (lambda: peroxide.of_parts([(51, 10)]), "outside the density table"),
        (lambda: peroxide.density_g_ml(-1), "outside the density table"),
        (
            lambda: peroxide.solution(Strength(60, "w/w"), "--stock"),
            r"--stock: 60 % w/w is outside .* 50 % w/w",
        ),
        (lambda: peroxide.solution(Strength(250, "vol"), "--stock"), "--stock: 250 vol is outside"),
    ],
)
def test_what_is_refused(ask, says):
    with pytest.raises(InputError, match=says) as caught:
        ask()
    assert "\n" not in str(caught.value)
