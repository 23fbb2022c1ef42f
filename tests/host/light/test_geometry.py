"""Sources, fall-off, coverage and datum, against exact arithmetic and numerical integration."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import integrate, optimize

from footlight.errors import InputError
from footlight.light import sources
from footlight.light.bigger import same_exposure
from footlight.light.coverage import projected
from footlight.light.datum import two_heights
from footlight.light.evenness import Source, grid_stops, height_for_loss_mm, of_sheet
from footlight.light.inverse import Change
from footlight.light.setup import Arrangement, Departure
from footlight.quantities import parse_sheet, parse_stop

LENS, BARE = Source("lens"), Source("bare")


def sheet(text: str):
    return parse_sheet(text, "sheet")


def off_axis_mm(height_mm: float, degrees: float) -> float:
    return height_mm * math.tan(math.radians(degrees))


# E = πLr²/(r² + d²) against the square law, exact; d in diameters.
@pytest.mark.parametrize(
    ("diameters", "ratio"), [(1, 0.8), (2, 0.9412), (3, 0.9730), (5, 0.9901), (10, 0.9975)]
)
def test_disc_source_on_axis(diameters, ratio):
    assert sources.disc_against_point(diameters * 60, 60) == pytest.approx(ratio, abs=5e-5)


# IES Lighting Handbook, definitions: five times the largest dimension, within one per cent.
def test_the_five_times_rule():
    assert sources.least_distance_mm(60) == 300
    assert sources.is_near(299, 60)
    assert not sources.is_near(300, 60)
    assert 1 - sources.disc_against_point(300, 60) < 0.01
    assert sources.point_law_error_stops(300, 60) == pytest.approx(math.log2(1.01))


# Foote's formula (from memory), r/z = 0.1.
@pytest.mark.parametrize(("degrees", "relative"), [(30, 0.56705), (45, 0.25313)])
def test_disc_source_off_axis(degrees, relative):
    source = Source("disc", diameter_mm=20)
    assert source.relative(100, off_axis_mm(100, degrees)) == pytest.approx(relative, abs=5e-6)


@pytest.mark.parametrize(("r_mm", "off_mm"), [(10, 40), (60, 90), (100, 30)])
def test_disc_source_against_numerical_integration(r_mm, off_mm):
    """Each element of a Lambertian disc gives cosθ·cosθ/D² = z²/D⁴ on a parallel plane."""
    z_mm = 100.0

    def element(angle: float, radius: float) -> float:
        squared = radius**2 + off_mm**2 - 2 * radius * off_mm * math.cos(angle) + z_mm**2
        return z_mm**2 / squared**2 * radius

    there = integrate.dblquad(element, 0, r_mm, 0, 2 * math.pi)[0]
    axis = math.pi * r_mm**2 / (r_mm**2 + z_mm**2)
    assert Source("disc", 2 * r_mm).relative(z_mm, off_mm) == pytest.approx(there / axis, rel=1e-6)


# cos⁴ and cos³, exact.
@pytest.mark.parametrize(
    ("degrees", "lens", "bare"),
    [(10, 0.9406, 0.9551), (20, 0.7797, 0.8298), (30, 0.5625, 0.6495), (45, 0.25, 0.3536)],
)
def test_cosine_laws(degrees, lens, bare):
    assert LENS.relative(500, off_axis_mm(500, degrees)) == pytest.approx(lens, abs=5e-5)
    assert BARE.relative(500, off_axis_mm(500, degrees)) == pytest.approx(bare, abs=5e-5)


# Corner loss by cos⁴ at 500 mm, exact.
@pytest.mark.parametrize(("size", "stops"), [("4x5", 0.075), ("8x10", 0.290), ("16x20", 1.018)])
def test_corner_loss(size, stops):
    assert of_sheet(sheet(size), 500, LENS).corner_stops == pytest.approx(stops, abs=5e-4)


# Height for at most a tenth of a stop at the corner, exact.
@pytest.mark.parametrize(("size", "height_mm"), [("4x5", 433), ("8x10", 866)])
def test_height_for_a_tenth_of_a_stop(size, height_mm):
    assert height_for_loss_mm(sheet(size), 0.1, LENS) == pytest.approx(height_mm, abs=0.5)


SOURCES = st.sampled_from([LENS, BARE, Source("disc", 30), Source("disc", 120)])
SIZES = st.sampled_from(["4x5", "5x7", "8x10", "16x20"])


@given(SOURCES, SIZES, st.floats(0.02, 1.0))
def test_the_height_for_a_loss_has_that_loss(source, size, stops):
    height_mm = height_for_loss_mm(sheet(size), stops, source)
    assert of_sheet(sheet(size), height_mm, source).corner_stops == pytest.approx(stops, rel=1e-6)


@given(SOURCES, st.floats(200, 3000), st.floats(0, 300), st.floats(1, 100))
def test_light_falls_with_distance_from_the_axis(source, height_mm, off_mm, further_mm):
    assert source.relative(height_mm, off_mm + further_mm) < source.relative(height_mm, off_mm) <= 1


@given(SIZES, st.floats(200, 2000), st.floats(1.1, 5))
def test_fall_off_depends_on_angle_alone(size, height_mm, scale):
    big = parse_sheet(f"{sheet(size).width_mm * scale} x {sheet(size).height_mm * scale} mm", "s")
    loss = of_sheet(sheet(size), height_mm, LENS).corner_stops
    assert of_sheet(big, height_mm * scale, LENS).corner_stops == pytest.approx(loss, rel=1e-6)


@pytest.mark.parametrize(("distance", "diameter"), [(0, 60), (-1, 60), (float("nan"), 60), (100, -1)])
def test_impossible_lengths(distance, diameter):
    with pytest.raises(InputError, match="must"):
        sources.disc_against_point(distance, diameter)
    if diameter > 0:
        with pytest.raises(InputError, match="more than zero"):
            LENS.relative(distance, 10)


def test_a_small_disc_is_a_small_flat_source():
    assert Source("disc", 0.01).relative(500, 200) == pytest.approx(LENS.relative(500, 200), rel=1e-6)


def test_the_grid_is_symmetric_and_ends_in_the_corners():
    grid = grid_stops(sheet("8x10"), 500, LENS)
    corner = of_sheet(sheet("8x10"), 500, LENS).corner_stops
    assert [grid[0][0], grid[0][-1], grid[-1][0], grid[-1][-1]] == pytest.approx([corner] * 4)
    assert grid[4][3] == pytest.approx(0)


@pytest.mark.parametrize("bad", [0.0, -0.1, float("nan")])
def test_a_tolerance_of_nothing_is_refused(bad):
    with pytest.raises(InputError, match="more than zero"):
        height_for_loss_mm(sheet("8x10"), bad, LENS)


def test_a_tolerance_out_of_reach_is_refused():
    with pytest.raises(InputError, match="100 m"):
        height_for_loss_mm(sheet("16x20"), 1e-6, Source("disc", 60))
    with pytest.raises(InputError, match="diameter"):
        Source("disc")


# ---- coverage: gate × (d/f - 1), thin lens, exact


def test_a_medium_format_opening_on_8x10():
    # 57 mm · (500/80 - 1) = 299.25 mm; 8x10 leaves (299.25 - 254)/2 = 22.6 mm
    found = projected(sheet("57 x 57 mm"), 80, 500, sheet("8x10"))
    assert found.width_mm == pytest.approx(299.25)
    assert found.margin_mm == pytest.approx(22.625)
    assert found.covers


def test_a_patch_too_small_says_which_height_would_do():
    found = projected(sheet("24 x 36 mm"), 50, 400, sheet("8x10"))
    assert not found.covers
    assert found.margin_mm == pytest.approx((24 * 7 - 203.2) / 2)
    again = projected(sheet("24 x 36 mm"), 50, found.least_lens_to_sheet_mm, sheet("8x10"))
    assert again.margin_mm == pytest.approx(10)
    assert "18 mm short" in found.summary


def test_the_sheet_may_be_turned():
    wide = projected(sheet("36 x 24 mm"), 50, 600, sheet("8x10"))
    assert wide.margin_mm == projected(sheet("24 x 36 mm"), 50, 600, sheet("10x8")).margin_mm


def test_a_lens_below_its_focal_length_is_refused():
    with pytest.raises(InputError, match="not beyond the focal length"):
        projected(sheet("57 x 57 mm"), 80, 80, sheet("8x10"))


# ---- datum


@given(st.floats(200, 600), st.floats(1.5, 3), st.floats(-50, 150))
def test_two_heights_find_the_datum(low_mm, times, add_mm):
    high_mm = low_mm * times
    ratio = ((high_mm + add_mm) / (low_mm + add_mm)) ** 2
    assert two_heights(low_mm, high_mm, ratio).add_mm == pytest.approx(add_mm, abs=1e-6)


def test_the_doubt_of_the_datum_against_numerical_derivatives():
    ratio = (830 / 430) ** 2

    def shift(index: int, off: float) -> float:
        given = [400.0, 800.0, ratio]
        given[index] += off
        return two_heights(*given).add_mm - 30

    slopes = [shift(index, 1e-4) / 1e-4 for index in range(3)]
    off = math.hypot(slopes[0] * 1, slopes[1] * 1, slopes[2] * ratio * 0.05 * math.log(2))
    assert two_heights(400, 800, ratio).uncertainty_mm == pytest.approx(off, rel=1e-3)


@pytest.mark.parametrize(
    ("low", "high", "ratio", "says"),
    [
        (800, 400, 4, "must be below"),
        (400, 800, 1.0, "at least 1.1"),
        (400, 800, 400, "only 21 mm above the"),
    ],
)
def test_impossible_two_height_tests(low, high, ratio, says):
    with pytest.raises(InputError, match=says):
        two_heights(low, high, ratio)


def test_the_datum_reads_as_an_instruction():
    assert two_heights(400, 800, (830 / 430) ** 2).summary.startswith("add 30 mm to the scale, ± ")
    assert two_heights(400, 800, (780 / 380) ** 2).summary.startswith("take 20 mm from the scale, ± ")


# ---- from a small sheet to a large one


def under_lens(height_mm: float) -> Arrangement:
    return Arrangement("head", "80 mm", 80.0, parse_stop("f/11", "s"), height_mm)


def test_the_same_second_exposure_now_8x10():
    # Corners at the same angle: the height doubles with the sheet (4x5 to 8x10), the time takes 4 times.
    found = same_exposure(
        6, under_lens(433), sheet("4x5"), sheet("8x10"), change=Change(departure=Departure(1.0))
    )
    assert found.raised.height_mm == pytest.approx(866, abs=0.5)
    assert found.area_ratio == pytest.approx(4)
    assert not found.can_stay
    assert found.answers[0].to.stop == parse_stop("f/5.6", "s")
    assert found.answers[1].seconds == pytest.approx(24, rel=2e-3)


def test_a_smaller_sheet_can_stay():
    found = same_exposure(6, under_lens(600), sheet("8x10"), sheet("4x5"))
    assert found.can_stay
    assert found.raised.height_mm == 600
    assert found.answers[0].seconds == 6


def test_a_tolerance_of_the_printers_own():
    found = same_exposure(6, under_lens(600), sheet("4x5"), sheet("8x10"), tolerance_stops=0.1)
    root = optimize.brentq(lambda d: of_sheet(sheet("8x10"), d, LENS).corner_stops - 0.1, 200, 3000)
    assert found.raised.height_mm == pytest.approx(root, abs=0.6)
