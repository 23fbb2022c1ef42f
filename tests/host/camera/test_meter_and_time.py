"""Camera exposures against ISO 2720's equations, exact arithmetic and scaling laws."""

import math
import random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from footlight.camera import exposure, meter
from footlight.camera.exposure import Film
from footlight.camera.extension import from_draw
from footlight.camera.subject import Condition, contrast, range_stops
from footlight.camera.tolerances import REASONS, Tolerances
from footlight.errors import InputError
from footlight.light.setup import Departure
from footlight.quantities import FStop, parse_stop

evs, indexes = st.floats(0, 13), st.floats(0.1, 50)
# A paper that keeps reciprocity, so that the law of the meter shows alone.
KEEPS = Departure(1.0, 0.0)


def stop(text: str) -> FStop:
    return parse_stop(text, "stop")


def metered_s(scene: meter.Scene, mark: str, index: float) -> float:
    return exposure.time_for(scene, stop(mark), Film(index, departure=KEEPS)).metered_s


# ISO 2720 equations with C = 250 and K = 12.5: lux 2.5·2^EV, luminance 0.125·2^EV. Exact.
@pytest.mark.parametrize(
    ("ev", "lux", "cd_m2"), [(0, 2.5, 0.125), (5, 80, 4), (12, 10240, 512), (15, 81920, 4096)]
)
def test_ev_lux_luminance(ev, lux, cd_m2):
    assert meter.lux_of(ev) == pytest.approx(lux)
    assert meter.luminance_of(ev) == pytest.approx(cd_m2)
    assert meter.of_lux(lux).ev100 == pytest.approx(ev)
    assert meter.of_luminance(cd_m2).ev100 == pytest.approx(ev)


# f/16 at 1/EI s in full sun (common practice): EV100 = log2(16²·100) = 14.644; EI 2, 4, 8. Exact.
@pytest.mark.parametrize(("index", "seconds"), [(2, 0.5), (4, 0.25), (8, 0.125)])
def test_full_sun_at_f16(index, seconds):
    sun = meter.of_exposure(1 / index, stop("f/16"), index)
    assert sun.ev100 == pytest.approx(14.644, abs=5e-4)
    assert metered_s(sun, "f/16", index) == pytest.approx(seconds)


# log2(100/EI): exact.
@pytest.mark.parametrize(("index", "stops"), [(1, 6.644), (2, 5.644), (4, 4.644)])
def test_stops_slower_than_iso_100(index, stops):
    slower = math.log2(metered_s(meter.of_ev(5), "f/8", index) / metered_s(meter.of_ev(5), "f/8", 100))
    assert slower == pytest.approx(stops, abs=5e-4)
    assert meter.of_ev(5, index).ev100 == pytest.approx(5 + stops, abs=5e-4)


def test_a_meter_that_ends_at_ei_8_for_ei_2():
    scene = meter.of_exposure(0.5, stop("f/22"), 8)
    assert metered_s(scene, "f/22", 2) == pytest.approx(4 * 0.5)


# EV100 12, EI 4, f/22: exact stop 3.125 s, literal 22 2.954 s. Exact.
def test_exact_and_literal_stop():
    assert metered_s(meter.of_ev(12), "f/22", 4) == pytest.approx(3.125)
    assert metered_s(meter.of_ev(12), "f/22 literal", 4) == pytest.approx(2.954, abs=5e-4)


@given(evs, indexes, indexes)
def test_time_goes_with_the_inverse_of_the_index(ev, one, other):
    ratio = metered_s(meter.of_ev(ev), "f/11", one) / metered_s(meter.of_ev(ev), "f/11", other)
    assert ratio == pytest.approx(other / one)


@given(evs, indexes)
def test_a_stop_and_an_ev_are_each_a_factor_of_two(ev, index):
    once = metered_s(meter.of_ev(ev), "f/8", index)
    assert metered_s(meter.of_ev(ev), "f/11", index) == pytest.approx(2 * once)
    assert metered_s(meter.of_ev(ev + 1), "f/8", index) == pytest.approx(once / 2)


@given(st.floats(0.01, 100), indexes)
def test_what_the_meter_proposes_comes_back(seconds, index):
    scene = meter.of_exposure(seconds, stop("f/16"), index)
    assert metered_s(scene, "f/16", index) == pytest.approx(seconds)


# t_c = t^(1/p): p 0.86: 10 → 14.55 s, 60 → 116.9 s; p 0.95: 10 → 11.29 s. Schwarzschild's law, exact.
@pytest.mark.parametrize(
    ("p", "metered", "given_s"), [(0.86, 10, 14.55), (0.86, 60, 116.9), (0.95, 10, 11.29)]
)
def test_long_exposures(p, metered, given_s):
    scene = meter.of_exposure(metered, stop("f/22"), 4)
    found = exposure.time_for(scene, stop("f/22"), Film(4, departure=Departure(p)))
    assert found.seconds == pytest.approx(given_s, rel=5e-4)
    assert found.metered_s == pytest.approx(metered)


def test_not_measured_means_p_09_and_a_doubt():
    scene = meter.of_exposure(60, stop("f/22"), 4)
    found = exposure.time_for(scene, stop("f/22"), Film(4))
    assert found.seconds == pytest.approx(60 ** (1 / 0.9))
    # log2(60)·(0.1/√3)/0.9² = 5.907·0.0577/0.81 = 0.421 stop. By hand.
    (term,) = [term for term in found.budget.terms if term.cause == "long-exposure behaviour"]
    assert term.stops == pytest.approx(0.421, abs=5e-4)
    assert "not measured" in term.detail


def test_short_times_are_not_corrected():
    found = exposure.time_for(meter.of_ev(15), stop("f/8"), Film(4))
    assert found.seconds == found.metered_s
    assert all(term.cause != "long-exposure behaviour" for term in found.budget.terms)


def test_an_index_found_at_ten_seconds_is_right_at_ten_seconds():
    scene = meter.of_exposure(10, stop("f/22"), 4)
    found = exposure.time_for(scene, stop("f/22"), Film(4, found_at_s=10))
    assert found.seconds == pytest.approx(10)


# f = 150 at 300 mm: factor 4. Light +1/2, filter +1: × 2^1.5. All by hand: 3.125 · 4 · 2.828 = 35.36 s.
def test_bellows_light_and_filter_multiply():
    found = exposure.time_for(
        meter.of_ev(12),
        stop("f/22"),
        Film(4, departure=KEEPS, iso_range=90),
        extension=from_draw(150, 300),
        conditions=(Condition("dusk", 0.5, -10), Condition("yellow", 1.0, 25, kind="filter")),
    )
    assert found.metered_s == pytest.approx(35.36, abs=0.005)
    assert found.contrast is not None
    assert found.contrast.iso_range == pytest.approx(105)
    assert len(found.notes) == 2
    assert "f/45.25" in " ".join(found.steps)


# ISO 6846: R = 100·log10(H_S/H_T); in stops 50: 1.66, 90: 2.99, 110: 3.65. Exact.
@pytest.mark.parametrize(("iso_range", "stops"), [(50, 1.66), (90, 2.99), (110, 3.65)])
def test_iso_range_in_stops(iso_range, stops):
    assert range_stops(iso_range) == pytest.approx(stops, abs=0.005)


@given(st.floats(40, 180), st.floats(-10, 30))
def test_contrast_adds_and_grows(iso_range, more):
    found = contrast(iso_range, (Condition("x", 0, more),))
    assert found.iso_range == pytest.approx(iso_range + more)
    assert (found.stops > contrast(iso_range, ()).stops) == (iso_range + more > iso_range)


def test_a_measured_light_is_surer_than_a_stated_one():
    stated, measured = Condition("shade", 1.0), Condition("shade", 1.0, measured=True)
    assert measured.doubt.stops < stated.doubt.stops
    assert Condition("shade", 1.0, off_stops=0.05).doubt.stops == 0.05
    found = exposure.time_for(meter.of_ev(12), stop("f/22"), Film(4), conditions=(measured,))
    assert found.notes == ()


def test_contrast_without_a_range_is_said():
    found = exposure.time_for(
        meter.of_ev(12), stop("f/22"), Film(4), conditions=(Condition("y", 1, 20, True),)
    )
    assert "give the paper's ISO range" in found.notes[0]


def test_first_order_doubt_agrees_with_monte_carlo():
    """Every input shaken by its own uncertainty; the spread of log2(time) is the budget."""
    draw, tol = from_draw(150, 225), Tolerances()
    found = exposure.time_for(meter.of_ev(8), stop("f/22"), Film(4), extension=draw)
    shake, spread = random.Random(7), []
    for _ in range(20_000):
        ev = 8 + shake.gauss(0, tol.reading_stops)
        index = 4 * 2 ** shake.gauss(0, tol.index_stops)
        number = 22.6274 * 2 ** (shake.gauss(0, tol.stop_stops) / 2)
        factor = ((225 + shake.gauss(0, tol.draw_mm)) / 150) ** 2
        metered = number**2 * 100 / (index * 2**ev) * factor
        spread.append(math.log2(metered) / shake.uniform(0.8, 1.0))
    mean = sum(spread) / len(spread)
    sigma = math.sqrt(sum((value - mean) ** 2 for value in spread) / (len(spread) - 1))
    assert found.budget.standard_stops == pytest.approx(sigma, rel=0.05)


def test_every_doubt_has_its_reason():
    assert all("(" in reason for reason in REASONS.values())
    assert set(REASONS) == set(vars(Tolerances()))


def test_json_form_and_summary():
    found = exposure.time_for(meter.of_ev(12), stop("f/22"), Film(4, iso_range=90))
    said = found.as_dict()
    assert said["metered_s"] == 3.125
    assert said["paper_range_stops"] == pytest.approx(2.99, abs=0.005)
    assert str(said["summary"]).startswith("3.55 s at f/22, ± 0.30 stop")


@pytest.mark.parametrize(
    ("ask", "says"),
    [
        (lambda: Film(0), "EI 0 is out of range"),
        (lambda: Film(-4), "EI -4 is out of range"),
        (lambda: Film(float("nan")), "EI nan is out of range"),
        (lambda: Film(4, found_at_s=0), "time of the index: 0 s"),
        (lambda: meter.of_ev(99), "EV 99 is out of range"),
        (lambda: meter.of_lux(0), "reading: 0 lx must be more than zero"),
        (
            lambda: meter.of_lux(10, c=100),
            r"C: 100 is out of range; allowed is 240 to 540 \(ISO 2720\)",
        ),
        (lambda: meter.of_luminance(-1), "reading: -1 cd/m2 must be more than zero"),
        (lambda: meter.of_luminance(10, k=20), "constant K: 20 is out of range; allowed is 10.6 to 13.4"),
        (lambda: meter.of_exposure(0, stop("f/8"), 4), "reading: 0 s must be more than zero"),
        (lambda: Condition("x", 11), "light 'x': 11 stops; allowed is -10 to 10"),
        (lambda: Condition("x", 1, 300, kind="filter"), "filter 'x': contrast R .300"),
        (lambda: contrast(210, (Condition("x", 0, 30),)), "R 240 is out of range"),
        (lambda: metered_s(meter.of_ev(-20), "f/90", 0.001), "is out of range; allowed is 1 ms to 100 h"),
        (lambda: metered_s(meter.of_ev(30), "f/1", 6400), "is out of range; allowed is 1 ms to 100 h"),
    ],
)
def test_what_is_refused(ask, says):
    with pytest.raises(InputError, match=says) as caught:
        ask()
    assert "\n" not in str(caught.value)
