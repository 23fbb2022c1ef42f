"""Dilutions, trays, citric acid and capacity against exact arithmetic, molar masses and units of others."""

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st
from periodictable import formulas

from footlight.chemistry import capacity, citric, dilution, tray
from footlight.errors import InputError
from footlight.quantities import Dilution, parse_dilution, parse_sheet

UNITS = pint.UnitRegistry()
volumes = st.floats(1, 20_000)
parts = st.tuples(st.floats(0.1, 20), st.floats(0, 200)).map(lambda pair: Dilution(*pair))


# 1 + 9 for 1 L: 100 + 900 mL; misread as 1 in 9 it is 111.1 mL, 11.1 % over. Exact arithmetic.
def test_one_plus_nine():
    made = dilution.for_volume(parse_dilution("1 + 9", "d"), 1000)
    assert (made.stock_ml, made.water_ml) == pytest.approx((100, 900))
    other = dilution.for_volume(parse_dilution("1 in 9", "d"), 1000)
    assert other.stock_ml == pytest.approx(111.1, abs=0.05)
    ratio = dilution.misread(made.dilution)
    assert ratio == pytest.approx(other.stock_ml / made.stock_ml)
    assert ratio == pytest.approx(1.111, abs=5e-4)


def test_a_dilution_that_cannot_be_misread():
    assert dilution.misread(parse_dilution("1 + 1", "d")) is None
    assert dilution.misread(parse_dilution("1 + 0", "d")) is None


# 37 mL and 410 mL: 410/37 = 11.08 of water to one; 447/37 = 12.08 in all; 37/447 = 8.277 %. By hand.
def test_odd_amounts():
    made = dilution.of_amounts(37, 410)
    assert (made.dilution.as_plus, made.dilution.as_in) == ("1 + 11.1", "1 in 12.1")
    assert made.dilution.fraction == pytest.approx(0.08277, abs=5e-6)


@given(parts, volumes)
def test_a_dilution_comes_back_from_its_amounts(wanted, volume_ml):
    made = dilution.for_volume(wanted, volume_ml)
    assert made.total_ml == pytest.approx(volume_ml)
    assert dilution.of_amounts(made.stock_ml, made.water_ml).dilution.fraction == pytest.approx(
        wanted.fraction
    )
    assert dilution.from_stock(wanted, made.stock_ml).total_ml == pytest.approx(volume_ml)


@given(parts, volumes, st.floats(0.1, 10))
def test_twice_the_volume_is_twice_of_everything(wanted, volume_ml, times):
    once, more = dilution.for_volume(wanted, volume_ml), dilution.for_volume(wanted, volume_ml * times)
    assert more.stock_ml == pytest.approx(once.stock_ml * times)


@pytest.mark.parametrize("bad", [0, -1, float("nan"), float("inf")])
def test_no_volume_is_refused(bad):
    for ask in (
        lambda: dilution.for_volume(Dilution(1, 9), bad),
        lambda: dilution.from_stock(Dilution(1, 9), bad),
        lambda: dilution.of_amounts(bad, 5),
        lambda: tray.depth_mm(parse_sheet("8x10", "s"), bad),
        lambda: tray.volume_ml(parse_sheet("8x10", "s"), bad),
        lambda: citric.spoons(bad),
    ):
        with pytest.raises(InputError, match="more than zero, for example"):
            ask()
    with pytest.raises(InputError, match="less than none"):
        dilution.of_amounts(5, -1)


# Area times depth: 20.32 cm × 25.4 cm × 1.5 cm = 774.2 mL. Exact arithmetic; pint as a witness.
def test_tray_volume():
    inside = parse_sheet("8x10", "tray")
    assert tray.volume_ml(inside, 15) == pytest.approx(774.19, abs=0.005)
    witness = UNITS.Quantity(8, "inch") * UNITS.Quantity(10, "inch") * UNITS.Quantity(15, "mm")
    assert tray.volume_ml(inside, 15) == pytest.approx(witness.to("mL").magnitude)


@given(st.floats(50, 900), st.floats(50, 900), st.floats(1, 200))
def test_depth_and_volume_are_inverse(width, height, deep):
    inside = parse_sheet(f"{width:.2f} x {height:.2f} mm", "tray")
    assert tray.depth_mm(inside, tray.volume_ml(inside, deep)) == pytest.approx(deep)


# 26 × 31 cm with 55 mm of rim, 15 mm of it free: 26·31·4 = 3224 mL. By hand.
def test_what_fits_and_what_does_not():
    inside = parse_sheet("26 x 31 cm", "tray")
    assert tray.most_ml(inside, 55) == pytest.approx(3224)
    assert tray.check_fits(inside, 55, 3224) == pytest.approx(40)
    with pytest.raises(InputError, match="3300 mL stands 40.9 mm deep in this tray.*at most 3224 mL"):
        tray.check_fits(inside, 55, 3300)
    with pytest.raises(InputError, match="rim: 15 mm leaves no depth"):
        tray.most_ml(inside, 15)


def test_a_shallow_tray_is_warned_of():
    assert "shallow" in (tray.depth_note(5) or "")
    assert tray.depth_note(10) is None


# C6H8O7 192.124 and C6H8O7·H2O 210.139 g/mol, ratio 1.09377: periodictable.
def test_citric_acid_molar_masses():
    dry, wet = formulas.formula("C6H8O7").mass, formulas.formula("C6H8O7(H2O)").mass
    assert citric.MOLAR_G["anhydrous"] == pytest.approx(dry, abs=0.002)
    assert citric.MOLAR_G["monohydrate"] == pytest.approx(wet, abs=0.002)
    assert citric.converted_g(1, "anhydrous", "monohydrate") == pytest.approx(1.09377, abs=5e-6)
    assert citric.converted_g(1, "anhydrous", "monohydrate") == pytest.approx(wet / dry, rel=1e-5)


@given(st.floats(0.1, 5000))
def test_citric_acid_there_and_back(mass_g):
    there = citric.converted_g(mass_g, "anhydrous", "monohydrate")
    assert there > mass_g
    assert citric.converted_g(there, "monohydrate", "anhydrous") == pytest.approx(mass_g)


# A level teaspoon of citric acid is about 4 to 5 g: common practice, no source.
def test_spoons_are_the_nearest_half_and_doubtful():
    level = citric.spoons(20)
    assert level.count == 4.5
    assert (level.mass_g - level.off_g) / level.count >= 4.0
    assert (level.mass_g + level.off_g) / level.count <= 5.0
    assert "weigh it" in str(level)
    assert citric.spoons(0.1).count == 0.5


# Labelling takes 5 mL (21 CFR 101.9); the US teaspoon of pint is 4.92892 mL, 1.4 % less.
def test_the_teaspoon_of_others():
    assert UNITS.Quantity(1, "teaspoon").to("mL").magnitude == pytest.approx(4.92892, abs=5e-6)
    assert UNITS.Quantity(1, "teaspoon").to("mL").magnitude == pytest.approx(citric.TEASPOON_ML, rel=0.015)


@given(st.floats(1, 1000))
def test_spoons_are_within_a_quarter_spoon(mass_g):
    level = citric.spoons(mass_g)
    if level.count > 0.5:
        assert abs(level.mass_g - mass_g) <= citric.TEASPOON_G / 4 + 1e-9


# 15 to 50 sheets of 8x10 per litre of paper developer: common practice, no source; a setting.
def test_developer_capacity_is_the_trades_range():
    assert capacity.TRADE["developer"].sheets_per_l == (15, 50)
    fresh = capacity.left(capacity.TRADE["developer"], 1000, capacity.Use())
    assert (fresh.state, fresh.least_sheets, fresh.most_sheets) == ("good", 15, 50)


# Nine sheets visit the developer twice: 18 visits of 15 to 50 per litre; (50 − 18)/2 = 16 are left. By hand.
def test_each_visit_counts():
    used = capacity.left(capacity.TRADE["developer"], 1000, capacity.Use(9, visits=2, age_h=3))
    assert (used.state, used.least_sheets, used.most_sheets) == ("watch", 0, 16)
    assert any("18 sheet-visits" in reason for reason in used.reasons)


# Clearing takes twice the fresh time: nearing its end (practice borrowed from fixers).
@pytest.mark.parametrize(
    ("now_s", "state"), [(120, "good"), (179, "good"), (180, "watch"), (240, "mix fresh")]
)
def test_slow_clearing(now_s, state):
    use = capacity.Use(fresh_s=120, now_s=now_s)
    assert capacity.left(capacity.TRADE["bleach"], 1000, use).state == state


def test_age_alone_can_end_a_bath():
    assert capacity.left(capacity.TRADE["bleach"], 1000, capacity.Use(age_h=5)).state == "mix fresh"


@given(st.floats(0, 100), st.floats(0, 50), st.floats(100, 5000))
def test_more_use_never_leaves_more(used, more, volume_ml):
    limits = capacity.TRADE["fixer"]
    before = capacity.left(limits, volume_ml, capacity.Use(used))
    after = capacity.left(limits, volume_ml, capacity.Use(used + more))
    assert after.most_sheets <= before.most_sheets
    assert after.least_sheets <= after.most_sheets


@pytest.mark.parametrize(
    ("make", "says"),
    [
        (lambda: capacity.Limits((0, 5), (1, 2)), "sheets per litre from 0 to 5"),
        (lambda: capacity.Limits((1, 5), (3, 2)), "hours in the tray from 3 to 2"),
        (lambda: capacity.Use(-1), "less than none"),
        (lambda: capacity.Use(1, visits=0), "0 visits"),
        (lambda: capacity.Use(1, fresh_s=3), "both times"),
        (lambda: capacity.Use(1, fresh_s=0, now_s=3), "more than zero"),
    ],
)
def test_bad_capacity(make, says):
    with pytest.raises(InputError, match=says):
        make()
