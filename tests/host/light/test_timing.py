"""Lamp, mains, relay, dead time and long exposures."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from footlight.errors import InputError
from footlight.light import dead_time, lamp, relay
from footlight.light.departure import Match, corrected_s, fit
from footlight.light.lamp import WarmUp

# ---- mains drift


# IES Lighting Handbook, n ≈ 3.4, from memory; the powers are arithmetic.
@pytest.mark.parametrize(("percent", "ratio"), [(1, 1.0344), (-5, 0.840), (-10, 0.699)])
def test_luminous_output(percent, ratio):
    assert lamp.output_ratio(230 * (1 + percent / 100), 230, 3.4) == pytest.approx(ratio, abs=5e-4)


def test_luminous_output_in_stops():
    assert lamp.drift_stops(0.95 * 230, 230, 3.4) == pytest.approx(-0.252, abs=5e-4)


# Wien's law: as blue-sensitive paper sees it, n ≈ 4.3 and -5 % is about -0.32 stop.
def test_paper_sees_more_drift_than_the_eye():
    assert lamp.exponent_at(450) == pytest.approx(4.3, abs=0.05)
    assert lamp.drift_stops(0.95 * 230, 230) == pytest.approx(-0.32, abs=0.005)


def test_the_exponent_against_plancks_law_and_the_eyes_response():
    """Scale the filament's temperature so that the eye sees n = 3.4; then read n at 450 nm."""
    colour = pytest.importorskip("colour")
    visible = colour.MSDS_CMFS["CIE 1931 2 Degree Standard Observer"].align(colour.SpectralShape(380, 780, 5))
    nm, v_lambda = visible.wavelengths, visible.values[:, 1]

    def planck(wavelength_nm, kelvin):
        return wavelength_nm**-5.0 / np.expm1(1.4387769e7 / (wavelength_nm * kelvin))

    def slope(seen):  # d ln(light) / d ln(temperature) at 2850 K
        return (math.log(seen(2850 * 1.001)) - math.log(seen(2850 * 0.999))) / 0.002

    luminous = slope(lambda kelvin: float(np.sum(planck(nm, kelvin) * v_lambda)))
    blue = slope(lambda kelvin: float(planck(450.0, kelvin)))
    assert lamp.exponent_at(450) == pytest.approx(3.4 * blue / luminous, rel=0.02)


@pytest.mark.parametrize(("volts", "reference"), [(100, 230), (0, 230), (230, 0)])
def test_drift_far_from_the_reference_is_refused(volts, reference):
    with pytest.raises(InputError, match="within 15 %"):
        lamp.drift_stops(volts, reference)


@pytest.mark.parametrize("nm", [100, 900])
def test_light_that_paper_does_not_see(nm):
    with pytest.raises(InputError, match="350 to 700"):
        lamp.exponent_at(nm)


# ---- warm-up


def test_warm_up_settles_and_costs():
    warm = WarmUp((0, 1, 2, 3, 4), (8, 9, 10, 10, 10))
    assert warm.settled_s() == 2
    assert warm.off_stops(0) == pytest.approx(math.log2(0.8))
    # Mean of 8 → 9 → 10 → 10 over 3 s: (8.5 + 9.5 + 10)/3 = 9.333
    assert warm.loss_stops(3) == pytest.approx(math.log2(9.33333 / 10), abs=1e-5)
    assert abs(warm.loss_stops(60)) < abs(warm.loss_stops(6))


@pytest.mark.parametrize(
    ("seconds", "readings"),
    [((0, 1), (1, 1)), ((0, 0, 1), (1, 1, 1)), ((0, 1, 2), (1, 0, 1)), ((0, 1, 2), (1, 1))],
)
def test_bad_warm_up_readings(seconds, readings):
    with pytest.raises(InputError, match="warm-up"):
        WarmUp(seconds, readings)


# ---- relay


# Application texts and arithmetic: 0 to half a cycle at each edge.
@pytest.mark.parametrize(("hz", "half_ms", "sound_s"), [(50, 10.00, 1.44), (60, 8.33, 1.20)])
def test_zero_crossing_relay(hz, half_ms, sound_s):
    assert relay.half_cycle_ms(hz) == pytest.approx(half_ms, abs=0.005)
    assert relay.shortest_sound_s("zero-crossing", hz) == pytest.approx(sound_s, abs=0.005)


def test_relays_in_order_of_exactness():
    kinds = ("random-on", "contacts", "zero-crossing")
    shortest = [relay.shortest_sound_s(kind, 50) for kind in kinds]
    assert shortest == sorted(shortest)


def test_a_zero_crossing_relay_against_simulated_edges():
    """Both edges at any phase: the light given differs from the setting by at most half a cycle."""
    rng = np.random.default_rng(20)
    on_ms = rng.uniform(0, 1000, 20_000)
    off_ms = on_ms + 1234.5

    def next_zero(at_ms):
        return np.ceil(at_ms / 10) * 10

    error_ms = np.abs(next_zero(off_ms) - next_zero(on_ms) - 1234.5)
    assert error_ms.max() <= relay.scatter_ms("zero-crossing", 50)
    assert error_ms.max() > 0.5 * relay.scatter_ms("zero-crossing", 50)


@pytest.mark.parametrize(("kind", "hz"), [("contacts", 0), ("zero-crossing", 400), ("steam", 50)])
def test_bad_relays(kind, hz):
    with pytest.raises(InputError):
        relay.shortest_sound_s(kind, hz) if kind != "contacts" else relay.half_cycle_ms(hz)


# ---- dead time


# δ = (n·t - T)/(n - 1), exact; the procedure is common practice, no source.
def test_ten_short_against_one_long():
    assert dead_time.from_match(10, 10, 1.05).dead_ms == pytest.approx(55.6, abs=0.05)


# Ten × 1 s against one 10 s, uncorrected, exact.
@pytest.mark.parametrize(("dead_ms", "stops"), [(50, -0.067), (200, -0.293)])
def test_what_splitting_costs(dead_ms, stops):
    assert dead_time.split_loss_stops(10, 10, dead_ms) == pytest.approx(stops, abs=5e-4)


@given(st.floats(0, 300), st.integers(2, 20), st.floats(4, 60))
def test_the_match_finds_the_dead_time(dead_ms, count, long_s):
    short_s = dead_time.lamp_on_s(dead_time.given_s(long_s, dead_ms) / count, dead_ms)
    assert dead_time.from_match(long_s, count, short_s).dead_ms == pytest.approx(dead_ms, abs=1e-6)


def test_the_doubt_of_the_dead_time_against_monte_carlo():
    rng = np.random.default_rng(20)
    found = dead_time.from_match(10, 10, 1.05, match_stops=0.03)
    # The long exposure that would really match is off by 0.03 stop of its light.
    light_s = (10 - 0.0556) * 2 ** rng.normal(0, 0.03, 20_000)
    dead_s = (10 * 1.05 - (light_s + 0.0556)) / 9
    assert found.uncertainty_ms == pytest.approx(1000 * float(np.std(dead_s)), rel=0.03)


@given(st.floats(0.5, 100), st.floats(0, 400))
def test_lamp_on_and_light_given_are_inverse(light_s, dead_ms):
    assert dead_time.given_s(dead_time.lamp_on_s(light_s, dead_ms), dead_ms) == pytest.approx(light_s)


@pytest.mark.parametrize(("long_s", "count", "short_s"), [(10, 1, 1), (10, 10, 0.9), (1, 2, 60), (0, 10, 1)])
def test_impossible_dead_time_tests(long_s, count, short_s):
    with pytest.raises(InputError, match="dead time"):
        dead_time.from_match(long_s, count, short_s)


def test_parts_shorter_than_the_dead_time():
    with pytest.raises(InputError, match="shorter than the dead time"):
        dead_time.split_loss_stops(1, 10, 200)


# ---- long exposures


# Schwarzschild's law, exact.
@pytest.mark.parametrize(
    ("p", "metered_s", "corrected"), [(0.86, 10, 14.55), (0.86, 60, 116.9), (0.95, 10, 11.29)]
)
def test_departure(p, metered_s, corrected):
    assert corrected_s(metered_s, p) == pytest.approx(corrected, rel=5e-4)


def test_no_correction_below_the_normal_time():
    assert corrected_s(0.5, 0.86) == 0.5
    assert corrected_s(20, 0.86, normal_s=20) == 20


@given(st.floats(0.7, 1.1), st.floats(1, 20))
def test_the_fit_finds_the_exponent(p, at_s):
    matches = [Match(stops, at_s * 2 ** (stops / p)) for stops in (0, 1, 2, 4)]
    found = fit(matches)
    assert found.departure.p == pytest.approx(p)
    assert found.scatter_stops == pytest.approx(0, abs=1e-6)


def test_the_fit_against_scipy():
    dim, seconds = [0, 1, 2, 3, 4], [4.0, 8.6, 18.0, 41.0, 82.0]
    slope, _, _, _, slope_off = tuple(stats.linregress(dim, np.log2(seconds)))
    found = fit([Match(*pair) for pair in zip(dim, seconds, strict=True)], match_stops=0.0)
    assert found.departure.p == pytest.approx(1 / slope)
    assert found.departure.p_uncertainty == pytest.approx(slope_off / slope**2)
    assert found.summary == f"p = {1 / slope:.3f} ± {slope_off / slope**2:.3f}, from 4 s to 82 s"


def test_the_fit_against_monte_carlo():
    rng = np.random.default_rng(20)
    dim = np.array([0.0, 2.0, 4.0])
    ps = []
    for _ in range(4000):
        seconds = 4 * 2 ** (dim / 0.92 + rng.normal(0, 0.1, 3))
        slope = np.polyfit(dim, np.log2(seconds), 1)[0]
        ps.append(1 / slope)
    exact = fit([Match(float(d), float(4 * 2 ** (d / 0.92))) for d in dim], match_stops=0.1)
    assert exact.departure.p_uncertainty == pytest.approx(float(np.std(ps)), rel=0.06)


@pytest.mark.parametrize(
    ("matches", "says"),
    [
        ([Match(0, 4)], "at least two"),
        ([Match(0, 4), Match(1, 8)], "at least 2 are"),
        ([Match(0, 4), Match(4, 4)], "outside 0.5 to 1.2"),
        ([Match(0, 64), Match(4, 4)], "outside 0.5 to 1.2"),
        ([Match(0, 0), Match(4, 4)], "more than zero"),
    ],
)
def test_bad_fits(matches, says):
    with pytest.raises(InputError, match=says):
        fit(matches)
