"""Strips: sums, order, blade marks and refusals."""

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from footlight.errors import InputError
from footlight.light.dead_time import from_match
from footlight.light.setup import Arrangement, LightSetup
from footlight.light.strip import ready, steps
from footlight.light.strip.blade import Blade, mark_mm, parallax_mm, penumbra_mm
from footlight.light.strip.build import Layout, strip
from footlight.light.strip.fog import fog_test, verdict
from footlight.light.strip.plan import Manner
from footlight.quantities import parse_sheet, parse_stop

F11 = parse_stop("f/11", "stop")
SETUP = LightSetup("second", "head", "80 mm", 80.0, F11, 600, dead_ms=50)
LAYOUT = Layout(254, Blade(20))
MANNERS: list[Manner] = ["covered", "uncovered", "separate", "cut"]


def plan_of(totals, manner: Manner = "covered", setup=SETUP, layout=LAYOUT, **more):
    return strip(setup, totals, layout, name="test", purpose="testing", manner=manner, **more)


# f-stop strip in ⅓ stops from 4 s, cumulative, exact.
def test_third_stops_from_four_seconds():
    totals = steps.fstop_steps(8, 1 / 3, 7)
    assert totals == pytest.approx([4, 5.04, 6.35, 8, 10.08, 12.70, 16], abs=5e-3)
    assert steps.added(totals) == pytest.approx([4, 1.04, 1.31, 1.65, 2.08, 2.62, 3.30], abs=5e-3)


# Plain strip by uncovering, NAVEDTRA 14209: 2, 4, 6, 8 s.
def test_a_plain_strip_by_uncovering():
    totals = steps.arithmetic_steps(2, 2, 4)
    assert totals == [2, 4, 6, 8]
    plan = plan_of(totals, "uncovered", anchor=False)
    assert [light.seconds for light in plan.lights] == [2, 2, 2, 2]
    assert [light.lit for light in plan.lights] == [(4,), (3, 4), (2, 3, 4), (1, 2, 3, 4)]


# r·c/(d - c), similar triangles, exact.
def test_parallax_of_a_blade():
    assert parallax_mm(60, 20, 600) == pytest.approx(2.07, abs=5e-3)


@given(st.floats(0, 250), st.floats(0, 250), st.floats(0, 100), st.floats(250, 2000))
def test_the_shadow_of_a_mark_falls_on_the_edge(edge_mm, axis_mm, blade_mm, lens_mm):
    mark = mark_mm(edge_mm, axis_mm, Blade(blade_mm), lens_mm)
    shadow = mark + math.copysign(parallax_mm(abs(mark - axis_mm), blade_mm, lens_mm), mark - axis_mm)
    assert shadow == pytest.approx(edge_mm, abs=1e-6)


def test_penumbra_by_similar_triangles():
    # pupil 80/11.3137 = 7.07 mm; 7.07·20/580 = 0.244 mm
    assert penumbra_mm(Blade(20), SETUP.here) == pytest.approx(0.2438, abs=5e-5)
    bulb = Arrangement("bulb", None, None, None, 600, source_mm=60)
    assert penumbra_mm(Blade(20), bulb) == pytest.approx(60 * 20 / 580)
    assert penumbra_mm(Blade(20), replace(bulb, source_mm=0.0)) is None


@pytest.mark.parametrize("manner", MANNERS)
@given(centre=st.floats(4, 40), step=st.sampled_from([1 / 3, 0.5, 1]), count=st.sampled_from([3, 5, 7]))
def test_the_lights_of_every_band_add_up(manner, centre, step, count):
    plan = plan_of(steps.fstop_steps(centre, step, count), manner, centre_s=centre)
    for band in plan.bands:
        assert plan.given_s(band.number) == pytest.approx(band.total_s, abs=1e-9)
    assert plan.bands[0].total_s == 0
    assert plan.bands[-1].kind == "anchor"
    assert plan.steps[count // 2].stops == pytest.approx(0)


@pytest.mark.parametrize("manner", ["covered", "uncovered"])
def test_the_blade_goes_one_way(manner):
    lights = plan_of(steps.fstop_steps(8, 1 / 3, 7), manner).lights
    marks = [light.mark_mm for light in lights if light.mark_mm is not None]
    assert len(marks) == 8
    assert marks == sorted(marks, reverse=manner == "uncovered")


@pytest.mark.parametrize(
    ("manner", "warned"), [("covered", True), ("uncovered", True), ("separate", False), ("cut", False)]
)
def test_intermittency_is_warned_of_where_there_is_any(manner, warned):
    plan = plan_of(steps.fstop_steps(8, 1, 5), manner)
    assert any("Intermittency" in note for note in plan.notes) is warned


def test_the_anchor_is_ten_times_the_middle_dose_and_above_every_step():
    assert steps.anchor_s([4, 8, 16]) == 80
    assert steps.anchor_s([1, 8, 64, 65, 70]) == 640
    assert steps.anchor_s([1, 2, 64]) == 128


def test_dead_time_is_counted_in():
    plan = plan_of([4, 8])
    assert plan.lamp_on_s(plan.lights[0]) == pytest.approx(4.05)
    assert plan.lights[0].duration_ms == 4000


def test_cut_pieces_have_no_marks():
    plan = plan_of([4, 8], "cut")
    assert plan.blade is None
    assert all(light.mark_mm is None for light in plan.lights)


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: steps.fstop_steps(8, 1 / 3, 6), "no centre"),
        (lambda: steps.fstop_steps(0, 1 / 3, 7), "more than zero"),
        (lambda: steps.fstop_steps(8, 0.01, 7), "1/12 to 2 stops"),
        (lambda: steps.fstop_steps(8, 1, 99), "3 to 25"),
        (lambda: steps.arithmetic_steps(2, 0, 4), "more than zero"),
        (lambda: plan_of([8, 4]), "must rise"),
        (lambda: plan_of(steps.fstop_steps(0.4, 1 / 12, 3)), "shorter than this relay can do"),
        (lambda: plan_of([4, 8], layout=Layout(5)), "10 mm to 3000 mm"),
        (
            lambda: plan_of([4, 8], layout=Layout(254, Blade(290)), setup=replace(SETUP, height_mm=400)),
            "lower half",
        ),
        (lambda: Blade(-1), "0 to 300 mm"),
        (lambda: Layout(0), "10 mm"),
    ],
)
def test_bad_strips(call, says):
    with pytest.raises(InputError, match=says):
        call()


def test_bands_lost_in_a_bare_lamps_penumbra_are_refused():
    bulb = LightSetup("flash", "bulb", None, None, None, 600, source_mm=300)
    with pytest.raises(InputError, match="soft edge"):
        plan_of(steps.fstop_steps(8, 1, 7), setup=bulb, layout=Layout(120, Blade(40)))


def test_soft_and_uneven_strips_are_said():
    bulb = LightSetup("flash", "bulb", None, None, None, 400, source_mm=60)
    notes = plan_of([4, 8], setup=bulb, layout=Layout(80, Blade(40))).notes
    assert any("Penumbra" in note for note in notes)
    near = replace(SETUP, height_mm=300)
    assert any("Fall-off" in note for note in plan_of([4, 8], setup=near).notes)


# ---- ready made


def test_the_second_exposure_in_whole_stops_and_then_in_thirds():
    first = ready.second_exposure(SETUP, 8, LAYOUT)
    assert [band.total_s for band in first.steps] == pytest.approx([1, 2, 4, 8, 16, 32, 64])
    finer = ready.second_exposure(SETUP, 8, LAYOUT, step_stops=ready.NEXT_STOPS)
    assert finer.steps[4].total_s == pytest.approx(10.08, abs=5e-3)
    assert finer.bands[-1].total_s == pytest.approx(80)


@pytest.mark.parametrize(
    ("blade", "manner", "warned"), [(0, "covered", True), (30, "covered", False), (0, "cut", False)]
)
def test_a_card_on_a_wet_sheet_is_warned_of(blade, manner, warned):
    notes = ready.second_exposure(SETUP, 8, Layout(254, Blade(blade)), manner=manner).notes
    assert any("Never lay a card" in note for note in notes) is warned


@pytest.mark.parametrize("build", [ready.preflash_threshold, ready.preflash_decision])
def test_pre_flash_strips_have_a_zero_band_and_no_anchor(build):
    plan = build(SETUP, 2, LAYOUT)
    assert [band.kind for band in plan.bands][0] == "zero"
    assert "anchor" not in [band.kind for band in plan.bands]


def test_every_band_of_the_dead_time_strip_means_its_dead_time():
    plan = ready.dead_time(SETUP, Layout(254))
    assert plan.setup.dead_ms == 0
    assert plan.given_s(0) == pytest.approx(5.0)
    assert sum(0 in light.lit for light in plan.lights) == 10
    found = sorted(from_match(band.total_s, 10, 0.5).dead_ms for band in plan.bands[1:])
    assert found == pytest.approx([0, 25, 50, 75, 100, 150, 200])
    assert [light.number for light in plan.lights] == list(range(1, 18))
    assert "tells the dead time" in plan.notes[-1]


def test_a_dead_time_that_cannot_be_tested():
    with pytest.raises(InputError, match="cannot test"):
        ready.dead_time(SETUP, LAYOUT, short_s=0.1, count=10, tries_ms=(0, 200))


def test_the_crossed_strip():
    second = ready.second_exposure(SETUP, 8, LAYOUT)
    both = ready.crossed(SETUP, 3.0, second, parse_sheet("8x10", "s"))
    totals = [band.total_s for band in both.first.bands]
    assert totals == pytest.approx([0, 3 * 2 ** (-4 / 3), 3, 12])
    assert len(both.row_names) == len(totals)
    assert both.first.length_mm == pytest.approx(203.2)
    assert both.as_dict()["rows"] == list(ready.ROWS)
    with pytest.raises(InputError, match="mid-grey"):
        ready.crossed(SETUP, 3.0, second, parse_sheet("8x10", "s"), grey_stops=1)


# ---- safelight fog


def test_the_fog_test_runs_to_twenty_minutes():
    test = fog_test("before first developer", SETUP, 240, pre_exposure_s=2)
    assert test.minutes == 20
    assert test.totals_s == (0, 60, 120, 240, 480, 1200)
    assert [wait.seconds for wait in test.waits] == [60, 60, 120, 240, 720]
    assert [wait.mark_mm for wait in test.waits] == [40, 80, 120, 160, 200]
    assert test.shows_as == "lost black"
    assert fog_test("after the bleach", SETUP, 240).shows_as == "veil in the whites"


@pytest.mark.parametrize(
    ("stage", "exposure", "waits"),
    [
        ("after the bleach", 2.0, (1, 2)),
        ("before first developer", None, (1, 2)),
        ("after the bleach", None, (2, 1)),
    ],
)
def test_bad_fog_tests(stage, exposure, waits):
    with pytest.raises(InputError, match="fog test"):
        fog_test(stage, SETUP, 240, pre_exposure_s=exposure, waits_min=waits)


def test_safe_means_no_change():
    found = verdict([0, 60, 120, 240, 480], [0.40, 0.40, 0.41, 0.40, 0.43])
    assert (found.safe_s, found.fogged_s) == (240, 480)
    assert found.summary == "safe for 4:00; fog at 8:00"
    lost = verdict([0, 60, 120], [2.10, 2.10, 2.05])
    assert lost.fogged_s == 120
    assert verdict([0, 60], [0.4, 0.4]).summary == "safe for 1:00, the longest tried"
    with pytest.raises(InputError, match="one for each band"):
        verdict([0, 60], [0.4])
