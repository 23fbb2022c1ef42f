"""Exposures add as light; the flash costs and gains what `flash decide` finds."""

import math

import pytest
from tests.host.tones.papers import SHADOWS, a_curve, a_paper, density_d

from footlight.errors import InputError
from footlight.light.preflash import Trial, decide
from footlight.tones import flash
from footlight.tones.exposures import Exposure, Weights, parts, place_lx_s


def gain_stops(lx_s: float, flash_lx_s: float) -> float:
    weights = Weights(flash_share=1.0)
    with_, without = (parts(Exposure(lx_s, 0.0, 1.0, amount), weights).stops for amount in (flash_lx_s, 0.0))
    return with_ - without


def test_a_flash_lifts_a_shadow_and_hardly_a_light():
    # Additivity of exposures: 0.1 and 1.0 with a flash of 0.25 (check-values).
    assert gain_stops(0.1, 0.25) == pytest.approx(1.81, abs=0.005)
    assert gain_stops(1.0, 0.25) == pytest.approx(0.32, abs=0.005)


def test_flare_is_a_share_of_the_mean_and_time_a_power():
    weights = Weights(flare_share=0.02, p=0.9, reference_s=1.0)
    taken = parts(Exposure(0.5, 2.0, 8.0), weights)
    assert taken.camera_lx_s == pytest.approx(0.5 * 8.0**-0.1)
    assert taken.flare_lx_s == pytest.approx(0.04 * 8.0**-0.1)
    assert 2.0**taken.stops == pytest.approx(0.54 * 8.0**-0.1)


def test_the_exposure_of_a_metered_place():
    # ISO 2721 and 2720, from memory: H = 0.65 x 12.5 / S.
    assert place_lx_s(4, 0.0) == pytest.approx(0.65 * 12.5 / 4)
    assert place_lx_s(4, 1.0) == pytest.approx(2 * place_lx_s(4, 0.0))


def test_what_is_predicted_decides_as_the_strip_does():
    """The strip of the very same paper, worked from its formula and not from the curve."""
    flashes = (0.0, 0.11, 0.25)
    known = a_paper()
    predicted = [flash.trial(known, SHADOWS[0], SHADOWS[1], amount) for amount in flashes]
    strip = [
        Trial(amount, density_d(amount), density_d(0.05 + amount), density_d(0.10 + amount))
        for amount in flashes
    ]
    for mine, read in zip(predicted, strip, strict=True):
        assert mine.black_d == pytest.approx(read.black_d, abs=0.02)
        assert mine.separation_d == pytest.approx(read.separation_d, abs=0.01)
    assert decide(predicted).chosen.flash_s == decide(strip).chosen.flash_s == 0.11
    assert decide(predicted).loss_d == pytest.approx(decide(strip).loss_d, abs=0.02)


def test_the_threshold_takes_so_much_black():
    known = a_paper()
    amount = flash.threshold(known)
    assert flash.black_d(known) - flash.black_d(known, amount) == pytest.approx(0.04, abs=1e-6)
    assert density_d(0.0) - density_d(amount) == pytest.approx(0.04, abs=0.015)


def test_a_flash_alone_tells_its_weight():
    # A lamp of which a second does what 0.2 lx s of the camera do.
    alone = [(seconds, density_d(0.2 * seconds)) for seconds in (2.0, 4.0, 8.0)]
    share, off_stops = flash.share_of(a_curve(), alone)
    assert math.log2(share / 0.2) == pytest.approx(0.0, abs=0.02)
    assert 0.01 < off_stops < 0.1


def test_a_flash_on_the_flat_says_so():
    with pytest.raises(InputError, match="slope"):
        flash.share_of(a_curve(), [(0.01, a_curve().black_d)])
