"""The rule, the causes, and reading by eye: plain arithmetic, worked by hand."""

import math

import pytest

from footlight.errors import InputError
from footlight.strips import by_eye, cause, decision
from footlight.strips.bound import Bound


def bound(stops, low=None, high=None, by="veil, white"):
    return Bound(stops, stops if low is None else low, stops if high is None else high, by)


def test_dose_is_upper_limit_of_full_and_a_margin():
    found = decision.decide(bound(0.0, -0.1, 0.1), bound(2.0, 1.5, 2.5), 1 / 3, 1 / 3)
    assert found.dose_stops == pytest.approx(0.1 + 1 / 3)


def test_it_must_stay_a_margin_below_clean():
    """0.1 + 1/3 = 0.433; clean is sure up to 0.76: 0.76 − 1/3 = 0.427 is less, so no dose."""
    assert decision.decide(bound(0.0, -0.1, 0.1), bound(1.0, 0.76, 1.2), 1 / 3, 1 / 3).dose_stops is None
    assert decision.decide(bound(0.0, -0.1, 0.1), bound(1.0, 0.77, 1.2), 1 / 3, 1 / 3).dose_stops is not None


def test_larger_repeatability_is_the_margin():
    assert decision.margin(0.5) == 0.5
    assert decision.margin(0.1) == decision.margin(None) == 1 / 3


@pytest.mark.parametrize(
    ("full", "clean", "reason"),
    [
        (bound(math.inf), bound(1.0), "black nowhere"),
        (Bound(0.0, -0.1, math.inf, "black"), bound(2.0), "black nowhere"),
        (bound(1.0), bound(0.5), "no window"),
        (bound(0.0), bound(-math.inf), "no window"),
        (bound(0.0), bound(math.inf, by="no white band"), "no white band"),
        (bound(0.0, -0.4, 0.4), bound(1.0, 0.6, 1.4), "window not sure"),
    ],
)
def test_no_dose_without_a_window(full, clean, reason):
    found = decision.decide(full, clean, 1 / 3, 1.0)
    assert (found.dose_stops, found.reason) == (None, reason)


def test_by_eye_is_wider_than_a_scan():
    stops = [k / 3 for k in range(-4, 5)]
    found, full, clean = by_eye.read(by_eye.Answers(3, 8, True), stops)
    assert full.low < stops[1] < full.stops < stops[2] < full.high
    assert clean.low < stops[7] < clean.high
    assert found.dose_stops is not None and full.high < found.dose_stops < clean.low


def test_by_eye_without_anchor_gives_no_dose():
    found, _, _ = by_eye.read(by_eye.Answers(3, 8, False), [k / 3 for k in range(-4, 5)])
    assert found.dose_stops is None


def test_by_eye_refuses_steps_that_are_not_there():
    with pytest.raises(InputError, match="step 12; allowed is 1 to 9"):
        by_eye.read(by_eye.Answers(12, 8, True), [k / 3 for k in range(-4, 5)])


@pytest.mark.parametrize(
    ("signs", "words"),
    [
        (cause.Signs(anchor_d=2.0, zero_white_d=0.16, paper_d=0.08), "no second exposure at all"),
        (cause.Signs(anchor_d=1.3), "pre-flash"),
        (cause.Signs(anchor_d=2.0, rise_d=0.1, rise2_d=0.09), "both white bands"),
        (cause.Signs(anchor_d=2.0, rise_d=0.1, rise2_d=0.01), "too little first exposure"),
        (cause.Signs(anchor_d=2.0, stain_d=0.06), "stain, not veil"),
        (cause.Signs(anchor_d=1.9, turned_d=0.1), "turns back"),
    ],
)
def test_each_sign_has_its_cause(signs, words):
    found = cause.causes(signs)
    assert len(found) == 1 and words in found[0]


def test_a_good_strip_has_none():
    assert cause.causes(cause.Signs(2.0, 0.09, 0.09, 0.09, 0.01, 0.0, 0.01, 0.08)) == ()
