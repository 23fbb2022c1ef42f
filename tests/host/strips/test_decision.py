"""The rule, the causes, and reading by eye: plain arithmetic, worked by hand."""

import math

import pytest

from footlight.errors import InputError
from footlight.strips.judge import by_eye, cause, decision, words
from footlight.strips.judge.bound import Bound


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
        (Bound(0.0, -0.1, math.inf, decision.NO_ANCHOR), bound(2.0), "no anchor"),
        (bound(-math.inf), bound(1.0), "black everywhere"),
        (bound(1.0), bound(0.5), "no window"),
        (bound(0.0), bound(-math.inf), "no window"),
        (bound(0.0), bound(math.inf, by="no white band"), "no white band"),
        (bound(0.0, -0.4, 0.4), bound(1.0, 0.6, 1.4), "window not sure"),
    ],
)
def test_no_dose_without_a_window(full, clean, reason):
    found = decision.decide(full, clean, 1 / 3, 1.0)
    assert (found.dose_stops, found.reason) == (None, reason)


@pytest.mark.parametrize(("full", "centre"), [(math.inf, 3.5), (-math.inf, -2.5)])
def test_a_strip_that_missed_is_made_anew_three_stops_away(full, centre):
    found = decision.decide(bound(full), bound(1.0), 1 / 3, 1 / 3, middle_stops=0.5)
    assert (found.next_centre_stops, found.next_step_stops) == (centre, 1.0)


def test_a_strip_without_its_anchor_is_made_anew_with_it():
    found = decision.decide(Bound(0.5, 0.4, math.inf, decision.NO_ANCHOR), bound(3.0), 1 / 3, 1.0)
    assert (found.next_centre_stops, found.next_step_stops) == (pytest.approx(0.5 + 1 / 3), 1 / 3)
    said = words.advice(found, Bound(0.5, 0.4, math.inf, decision.NO_ANCHOR), bound(3.0), 8.0)
    assert "anchor is missing" in said[0] and "9 steps of 1/3 stop" in said[-1]


def test_limits_are_said_with_their_intervals():
    """8 s at 0 stops: 1 stop is 16 s, 2 stops 32 s, half a stop 11.3 s; quarter stops 6.73 s and 9.51 s."""
    found = decision.decide(bound(0.0, -0.25, 0.25), bound(2.0, 1.5, 3.0), 1 / 3, 1 / 3)
    said = words.advice(found, bound(0.0, -0.25, 0.25), bound(2.0, 1.5, 3.0), 8.0)
    assert said[1] == (
        "Black is full from 8.0 s (6.73 s to 9.5 s); white is clean to 32.0 s (22.6 s to 64.0 s), then veil"
        " in 'just white'. Intervals: 90 %."
    )


def test_by_eye_is_wider_than_a_scan():
    stops = [k / 3 for k in range(-4, 5)]
    found, full, clean = by_eye.read(by_eye.Answers(3, 8, True), stops)
    assert full.low < stops[1] < full.stops < stops[2] < full.high
    assert clean.low < stops[7] < clean.high
    assert found.dose_stops is not None and full.high < found.dose_stops < clean.low


def test_by_eye_without_anchor_gives_no_dose():
    found, _, _ = by_eye.read(by_eye.Answers(3, 8, False), [k / 3 for k in range(-4, 5)])
    assert found.dose_stops is None


def test_by_eye_a_weak_anchor_is_its_own_answer():
    found, full, clean = by_eye.read(by_eye.Answers(3, 8, False), [k / 3 for k in range(-4, 5)])
    said = words.advice(found, full, clean, 8.0)
    assert found.reason == "weak anchor" and len(said) == 1
    assert "anchor is no full black" in said[0] and "stops higher" not in said[0]


def test_by_eye_refuses_steps_that_are_not_there():
    with pytest.raises(InputError, match="step 12; allowed is 1 to 9"):
        by_eye.read(by_eye.Answers(12, 8, True), [k / 3 for k in range(-4, 5)])


@pytest.mark.parametrize(
    ("signs", "words"),
    [
        (cause.Signs(anchor_d=2.0, zero_white_d=0.16, paper_d=0.08), "no second exposure at all"),
        (cause.Signs(anchor_d=1.0), "pre-flash"),
        (cause.Signs(anchor_d=2.0, rise_d=0.1, rise2_d=0.09), "both white bands"),
        (cause.Signs(anchor_d=2.0, rise_d=0.1, rise2_d=0.01), "too little first exposure"),
        (cause.Signs(anchor_d=2.0, blue_d=0.12, paper_blue_d=0.06), "stain, not veil"),
        (cause.Signs(anchor_d=1.9, turned_d=0.1), "turns back"),
    ],
)
def test_each_sign_has_its_cause(signs, words):
    found = cause.causes(signs)
    assert len(found) == 1 and words in found[0]


def test_a_warm_base_is_no_stain():
    warm = cause.Signs(anchor_d=2.0, blue_d=0.12, paper_blue_d=0.11)
    assert cause.causes(warm) == cause.doubts(warm) == ()


def test_a_base_of_unknown_colour_leaves_a_doubt():
    signs = cause.Signs(anchor_d=2.0, blue_d=0.12)
    assert cause.causes(signs) == ()
    assert "a warm base, or stain" in cause.doubts(signs)[0]


def test_a_good_strip_has_none():
    good = cause.Signs(2.0, 0.09, 0.09, 0.09, 0.01, 0.0, blue_d=0.01, paper_blue_d=0.0, paper_d=0.08)
    assert cause.causes(good) == cause.doubts(good) == ()
