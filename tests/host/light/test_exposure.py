"""Exposure conversion against exact arithmetic, scaling laws and round trips."""

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from footlight.errors import InputError
from footlight.light import exposure
from footlight.light.inverse import Change, choices, height_for_time, outcome, stop_for_time
from footlight.light.setup import Arrangement, Departure, LightSetup, MeterReading, Reference
from footlight.quantities import FStop, parse_stop

# The laws of light are held to on a paper that keeps reciprocity, so that they alone make the time.
RECIPROCITY = Departure(1.0, 0.0)
SAME = Change(departure=RECIPROCITY)


def convert(*arguments, **more) -> exposure.Exposure:
    return exposure.convert(*arguments, **({"departure": RECIPROCITY} | more))


def stop(text: str) -> FStop:
    return parse_stop(text, "stop")


def under_lens(height_mm: float, written: str = "f/11", **more) -> Arrangement:
    return Arrangement("head", "80 mm", 80.0, stop(written), height_mm, **more)


def bare(height_mm: float, source_mm: float = 0.0) -> Arrangement:
    return Arrangement("bulb", None, None, None, height_mm, source_mm=source_mm)


# Exact arithmetic: t·(d2/d1)²·(N2/N1)².
def test_ten_seconds_at_400_f8_becomes_45_at_600_f11():
    assert convert(10, under_lens(400, "f/8"), under_lens(600, "f/11")).seconds == pytest.approx(
        45.0, abs=0.005
    )


def test_the_same_with_eleven_taken_literally():
    found = convert(10, under_lens(400, "f/8 literal"), under_lens(600, "f/11 literal"))
    assert found.seconds == pytest.approx(42.54, abs=0.005)


def test_distance_wrong_by_five_per_cent():
    found = convert(10, under_lens(400), under_lens(420))
    assert found.seconds / 10 == pytest.approx(1.1025)
    assert found.illuminance_stops == pytest.approx(0.141, abs=5e-4)


# Illuminance ∝ (f/N)², exact arithmetic.
def test_a_lens_swap_from_50_to_80_mm_is_1_36_stops():
    fifty = replace(under_lens(600), lens="50 mm", focal_mm=50.0)
    found = convert(10, fifty, under_lens(600))
    assert found.illuminance_stops == pytest.approx(-1.36, abs=0.005)
    assert "until calibrated" in str(found.budget)


def test_neutral_density_of_0_30_is_a_stop():
    found = convert(10, under_lens(600), under_lens(600, nd_density_d=0.30))
    assert found.seconds == pytest.approx(19.953, abs=1e-3)


def test_the_line_that_a_program_prints():
    found = exposure.for_setup(setup_at(800, reference_mm=620))
    assert found.arithmetic == "6.0 s at 620 mm f/11 → 10.6 s at 800 mm f/11, ± 0.06 stop"
    assert found.summary == ("10.6 s ± 0.06 stop, mostly long-exposure behaviour (p 0.9 ± 0.1, not measured)")
    assert found.duration_ms == 10572  # 6000·((800/620)²)**(1/0.9) = 10571.8
    assert found.reciprocity_s == pytest.approx(9.9896, abs=1e-4)


def setup_at(height_mm: float, reference_mm: float, **more) -> LightSetup:
    reference = Reference(6.0, reference_mm, stop("f/11"))
    return LightSetup("second", "head", "80 mm", 80.0, stop("f/11"), height_mm, reference=reference, **more)


def test_where_nothing_changed_nothing_is_in_doubt():
    found = exposure.for_setup(setup_at(620, reference_mm=620))
    assert found.seconds == 6.0
    assert found.budget.terms == ()
    assert found.summary == "6.0 s"
    assert found.arithmetic == "6.0 s at 620 mm f/11 → 6.0 s at 620 mm f/11"


def test_more_light_at_the_same_place_is_a_plain_factor():
    found = exposure.for_setup(setup_at(620, reference_mm=620), offset_stops=1.0)
    assert found.seconds == pytest.approx(12.0)
    assert "+1 stop" in found.arithmetic


def test_the_itemised_arithmetic_multiplies_up_to_the_answer():
    found = convert(10, under_lens(400, "f/8"), under_lens(600, "f/11", nd_density_d=0.3), offset_stops=1 / 3)
    product = math.prod(factor.times for factor in found.factors) * 10 * 2 ** (1 / 3)
    assert product == pytest.approx(found.seconds)
    assert len(found.factors) == 3
    assert len(found.itemised) == 6


def test_json_has_units_in_its_keys():
    as_dict = exposure.for_setup(setup_at(800, reference_mm=620)).as_dict()
    assert as_dict["seconds"] == pytest.approx(10.5718, abs=1e-4)
    assert as_dict["reciprocity_seconds"] == pytest.approx(9.9896, abs=1e-4)
    assert as_dict["height_mm"] == 800
    assert as_dict["stop"] == "f/11"


# ---- lamps and filters


@pytest.mark.parametrize(
    "other",
    [
        replace(under_lens(620), lamp="other head"),
        replace(under_lens(620), filter="yellow"),
        Arrangement("head", None, None, None, 620),
    ],
)
def test_another_light_is_refused_without_a_bridging_strip(other):
    with pytest.raises(InputError, match="bridging strip"):
        convert(6, under_lens(620), other)
    assert convert(6, under_lens(620), other, bridge_stops=1.0).seconds == pytest.approx(12.0)


def test_a_bridge_where_lamp_and_filter_are_the_same_changes_nothing():
    assert convert(6, under_lens(620), under_lens(620), bridge_stops=1.0).seconds == 6.0


def test_a_lens_swap_without_focal_lengths_is_refused():
    with pytest.raises(InputError, match="focal length of both"):
        convert(6, replace(under_lens(620), lens="x", focal_mm=None), under_lens(620))


# ---- bare lamps


# Disc on its axis: E = πLr²/(r² + d²), exact.
def test_a_near_bare_lamp_follows_the_disc_formula_and_says_so():
    found = convert(1, bare(120, source_mm=60), bare(200, source_mm=60))
    assert found.seconds == pytest.approx((30**2 + 200**2) / (30**2 + 120**2))
    assert any("disc formula" in note and "2.778" in note for note in found.notes)


def test_a_far_bare_lamp_needs_no_warning_and_nearly_keeps_the_square_law():
    found = convert(1, bare(600, source_mm=60), bare(900, source_mm=60))
    assert found.seconds == pytest.approx(2.25, rel=0.002)
    assert not any("disc" in note for note in found.notes)


# ---- long exposures


def test_a_measured_departure_is_used_and_an_unmeasured_one_is_doubt():
    plain = convert(10, under_lens(400), under_lens(800), departure=None)
    known = convert(10, under_lens(400), under_lens(800), departure=Departure(0.9, 0.02))
    assert plain.seconds == known.seconds == pytest.approx(10 * 4 ** (1 / 0.9))
    assert plain.reciprocity_s == known.reciprocity_s == pytest.approx(40)
    assert known.budget.stops < plain.budget.stops
    assert any("by reciprocity it would be 40.0 s" in note for note in plain.notes)
    assert not known.notes


def test_same_seconds_leave_no_doubt_about_long_exposures():
    found = choices(10, under_lens(400, "f/16"), under_lens(800, "f/16"))[0]
    assert found.to.stop == stop("f/8")
    assert found.seconds == pytest.approx(10)
    assert {term.cause for term in found.budget.terms} == {"the height", "the stop"}


# ---- the inverse questions


def test_first_choice_keeps_the_seconds_second_keeps_the_stop():
    first, second = choices(6, under_lens(620), under_lens(800), SAME)
    assert first.to.stop == stop("f/9")  # 11.3137·620/800 = 8.768; the nearest third is f/8.98
    assert first.seconds == pytest.approx(
        6 * (800 / 620) ** 2 * (stop("f/9").exact_value / 11.3137) ** 2, rel=1e-4
    )
    assert second.to.stop == stop("f/11")
    assert second.seconds == pytest.approx(9.99, abs=0.005)


def test_a_stop_changed_on_purpose_has_one_answer():
    assert len(choices(6, under_lens(620), under_lens(800, "f/8"))) == 1
    assert len(choices(6, bare(620), bare(800))) == 1


def test_what_do_i_get_at_eight_seconds():
    said = outcome(6, under_lens(620), under_lens(800), 8.0, SAME)
    assert said.stops == pytest.approx(math.log2(8 / 9.98959), abs=1e-5)
    assert said.summary.startswith(
        "8.0 s at 800 mm f/11 is -0.32 stop against the exposure found good, ± 0.01"
    )


def test_a_stop_that_no_lens_has_leaves_the_other_answer():
    (only,) = choices(6, under_lens(100, "f/0.7"), under_lens(900, "f/0.7"))
    assert only.to.stop == stop("f/0.7")
    with pytest.raises(InputError, match="a bare lamp has none"):
        stop_for_time(6, bare(620), bare(620), 6)
    with pytest.raises(InputError, match="time wanted"):
        stop_for_time(6, under_lens(620), under_lens(620), 0)


def test_a_measured_departure_is_itemised():
    found = convert(10, under_lens(400), under_lens(800), departure=Departure(0.9, 0.02))
    line = "  long exposure, p = 0.9 (measured): +2.00 stop / 0.9; by reciprocity 40.0 s"
    assert line in found.itemised


@pytest.mark.parametrize("dose", [0.0, -1.0, float("nan")])
def test_impossible_doses_are_refused(dose):
    with pytest.raises(InputError, match="more than zero"):
        exposure.for_dose(setup_at(800, 620, meter=MeterReading(12, 620, stop("f/11"))), dose)


def test_a_height_beyond_reach_is_refused_with_the_way_out():
    with pytest.raises(InputError, match="change the stop instead"):
        height_for_time(6, under_lens(620), under_lens(620), 1e5, SAME)
    with pytest.raises(InputError, match="would need f/"):
        stop_for_time(6, under_lens(620), under_lens(620), 1e5, SAME)


HEIGHTS = st.floats(100, 3000)
SECONDS = st.floats(0.2, 300)
STOPS = st.sampled_from(
    ["f/2.8", "f/4", "f/5.6", "f/8", "f/11", "f/13", "f/16", "f/22", "f/11 1/2", "f/7.7 literal"]
)
DEPARTURES = st.sampled_from([None, Departure(0.85), Departure(0.95)])


@given(SECONDS, HEIGHTS, HEIGHTS, STOPS, STOPS, DEPARTURES)
def test_there_and_back_is_where_one_was(seconds, low, high, one, other, departure):
    at, to = under_lens(low, one), under_lens(high, other)
    there = convert(seconds, at, to, departure=departure)
    assert convert(there.seconds, to, at, departure=departure).seconds == pytest.approx(seconds)


@given(SECONDS, HEIGHTS, HEIGHTS, HEIGHTS, DEPARTURES)
def test_two_moves_are_as_good_as_one(seconds, a, b, c, departure):
    half = convert(seconds, under_lens(a), under_lens(b), departure=departure).seconds
    two = convert(half, under_lens(b), under_lens(c), departure=departure).seconds
    assert two == pytest.approx(convert(seconds, under_lens(a), under_lens(c), departure=departure).seconds)


@given(SECONDS, HEIGHTS, st.floats(1.01, 4))
def test_higher_needs_longer_and_smaller_needs_longer(seconds, height, more):
    assert convert(seconds, under_lens(height), under_lens(height * more)).seconds > seconds
    assert convert(seconds, under_lens(height, "f/8"), under_lens(height, "f/9")).seconds > seconds


@given(SECONDS, HEIGHTS)
def test_double_the_height_is_two_stops(seconds, height):
    assert convert(seconds, under_lens(height), under_lens(2 * height)).seconds == pytest.approx(4 * seconds)


@given(SECONDS, HEIGHTS, STOPS, DEPARTURES, st.floats(0.3, 3), st.floats(-2, 2), st.sampled_from([0.0, 60.0]))
def test_the_height_for_a_time_gives_that_time(seconds, height, written, departure, ratio, offset, source_mm):
    at = bare(height, source_mm) if source_mm else under_lens(height, written)
    change = Change(offset_stops=offset, departure=departure)
    wanted = seconds * ratio
    try:
        found = height_for_time(seconds, at, at, wanted, change)
    except InputError:
        return
    assert found.seconds == pytest.approx(wanted, rel=1e-6)
    assert outcome(seconds, at, found.to, wanted, change).stops == pytest.approx(0, abs=1e-5)


@given(SECONDS, HEIGHTS, HEIGHTS, st.sampled_from([1, 2, 3]))
def test_the_stop_for_a_time_is_within_half_a_click(seconds, low, high, parts):
    ratio = high / low
    if not 1.5 / 11.3 < 1 / ratio < 60 / 11.3:
        return
    found = stop_for_time(seconds, under_lens(low), under_lens(high), seconds, SAME, parts=parts)
    assert abs(math.log2(found.seconds / seconds)) <= 0.5 / parts + 1e-9


# ---- doses


def test_a_dose_in_lux_seconds_from_a_meter_reading():
    lit = setup_at(800, reference_mm=620, departure=RECIPROCITY, meter=MeterReading(12, 620, stop("f/11")))
    assert exposure.for_dose(lit, 72).seconds == pytest.approx(72 / 12 * (800 / 620) ** 2)


def test_a_dose_in_reference_seconds():
    lit = setup_at(800, reference_mm=620, departure=RECIPROCITY)
    assert exposure.for_reference_seconds(lit, 3.0).seconds == pytest.approx(3 * (800 / 620) ** 2)


@pytest.mark.parametrize("call", [exposure.for_setup, lambda s: exposure.for_dose(s, 10.0)])
def test_a_setup_without_reference_or_reading_says_what_to_write(call):
    empty = LightSetup("second", "head", "80 mm", 80.0, stop("f/11"), 620)
    with pytest.raises(InputError, match=r"light setup 'second': .*for example"):
        call(empty)


# ---- warnings


def test_a_time_too_short_for_the_relay_is_said():
    short = setup_at(250, reference_mm=620, relay="zero-crossing")
    assert any("1.44 s" in note for note in exposure.for_setup(short).notes)
    assert not any("relay" in note for note in exposure.for_setup(setup_at(620, 620)).notes)


@pytest.mark.parametrize(
    ("head", "written", "warned"),
    [
        ("condenser", "f/4", True),
        (None, "f/4", True),
        ("diffuser", "f/4", False),
        ("condenser", "f/8", False),
    ],
)
def test_condenser_heads_at_wide_stops(head, written, warned):
    lit = replace(setup_at(620, reference_mm=620, head=head), stop=stop(written))
    assert any("lamp's image" in note for note in exposure.for_setup(lit).notes) is warned


# ---- bad input


@pytest.mark.parametrize("value", [0.0, -1.0, float("nan"), float("inf")])
def test_impossible_numbers_are_refused(value):
    with pytest.raises(InputError):
        convert(value, under_lens(400), under_lens(600))
    with pytest.raises(InputError):
        under_lens(value)
    with pytest.raises(InputError):
        Reference(value, 620, None)
    with pytest.raises(InputError):
        outcome(6, under_lens(400), under_lens(600), value)


def test_impossible_setups_are_refused():
    with pytest.raises(InputError, match="no stop"):
        Arrangement("head", "80 mm", 80.0, None, 620)
    with pytest.raises(InputError, match="dead time"):
        LightSetup("A", "head", None, None, None, 620, dead_ms=-1)
    with pytest.raises(InputError, match="0.5 to 1.2"):
        Departure(0.1)
