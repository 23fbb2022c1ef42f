"""The curve against scipy's PCHIP and isotonic regression, ISO 6846's definitions, and what is no curve."""

import math
from dataclasses import replace

import numpy as np
import pytest
from scipy.interpolate import PchipInterpolator
from scipy.optimize import isotonic_regression
from tests.host.tones.papers import WEIGHTS, a_curve, density_d, sheet

from footlight.errors import InputError
from footlight.tones.curve import Sheet, Step, curve_of
from footlight.tones.monotone import cubics, falling


@pytest.mark.parametrize("seed", range(8))
def test_pooling_against_scipy(seed: int):
    rng = np.random.default_rng(seed)
    values = np.linspace(2, 0, 15) + rng.normal(0, 0.2, 15)
    weights = rng.uniform(0.5, 4, 15)
    expected = isotonic_regression(values, weights=weights, increasing=False).x
    assert falling(list(values), list(weights)) == pytest.approx(list(expected))


@pytest.mark.parametrize("seed", range(8))
def test_cubics_against_scipy(seed: int):
    rng = np.random.default_rng(seed)
    places = np.cumsum(rng.uniform(0.1, 1.0, 12))
    values = np.sort(rng.uniform(0, 2, 12))[::-1]
    values[4] = values[5]
    line, witness = cubics(list(places), list(values), 0.7), PchipInterpolator(places, values)
    for place in np.linspace(places[0], places[-1], 200):
        assert line.at(place) == pytest.approx(float(witness(place)), abs=1e-12)


def test_past_the_last_step_the_slope_dies_away():
    line = cubics([0.0, 1.0, 2.0], [2.0, 1.0, 0.0], 0.7)
    assert line.at(2.1) == pytest.approx(-0.1, abs=0.01)
    assert line.at(90.0) == pytest.approx(line.values[-1] - 0.7)
    assert line.at(-90.0) == pytest.approx(2.7)


def test_the_curve_goes_through_its_paper():
    curve = a_curve()
    for stops in np.linspace(-4.9, 4.9, 60):
        assert curve.at(stops) == pytest.approx(density_d(2.0**stops), abs=0.006)
        assert curve.stops_for(curve.at(stops)) == pytest.approx(stops, abs=0.02)


def test_range_and_speed_as_iso_6846_defines_them():
    # From memory: R = 100 (log H of 0.04 above the white - log H of 0.90 of the net), P = 1000 / H at 0.60.
    curve, net = a_curve(), a_curve().black_d - a_curve().white_d

    def log_h(above_d: float) -> float:
        return math.log10((1.97 / (curve.white_d + above_d - 0.08) - 1) ** (1 / 1.5))

    iso = curve.iso()
    assert iso.range_r == pytest.approx(100 * (log_h(0.04) - log_h(0.90 * net)), abs=4)
    assert iso.speed_p == pytest.approx(1000 / 10 ** log_h(0.60), rel=0.02)


def test_speed_of_one_kilolux_second_over_the_exposure():
    # check-values: P 400 is 2.5 lx s, P 100 is 10 lx s: four times the light for a quarter of the speed.
    slow = curve_of(replace(sheet(), steps=tuple(_more(step, 4.0) for step in sheet().steps)), WEIGHTS)
    fast_p, slow_p = a_curve().iso().speed_p, slow.iso().speed_p
    assert fast_p and slow_p and fast_p / slow_p == pytest.approx(4.0)
    assert slow.iso().range_r == pytest.approx(a_curve().iso().range_r)


def _more(step: Step, times: float) -> Step:
    return replace(step, lx_s=step.lx_s * times)


def test_a_sheet_that_says_nothing_is_refused():
    steps = sheet().steps
    negative = tuple(Step(step.lx_s, 2.1 - step.density_d) for step in steps)
    flat = tuple(Step(step.lx_s, 1.0) for step in steps)
    for taken, said in (
        (steps[:3], "at least 5"),
        (negative, "lighter with light"),
        (flat, "less than 0.3 D"),
        ((*steps, steps[0]), "each exposure once"),
    ):
        with pytest.raises(InputError, match=said):
            curve_of(Sheet(taken, 1.0, 0.0, 0.0), WEIGHTS)


def test_a_density_that_no_step_has_is_no_exposure():
    with pytest.raises(InputError, match="was not measured"):
        a_curve().stops_for(2.4)
