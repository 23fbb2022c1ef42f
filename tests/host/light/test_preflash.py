"""The decisions about pre-flash, on readings made up for the purpose."""

import pytest

from footlight.errors import InputError
from footlight.light.preflash import Patch, Step, Trial, decide, flash_dose_ratio, speed_gain_stops, threshold


def test_the_threshold_is_the_first_step_0_04_above_none():
    read = [Step(0, 0.05), Step(1, 0.05), Step(2, 0.07), Step(4, 0.09), Step(8, 0.30)]
    assert threshold(read).flash_s == 4
    assert threshold(list(reversed(read))).flash_s == 4
    assert threshold(read, above_d=0.02).flash_s == 2


@pytest.mark.parametrize(
    ("read", "says"),
    [
        ([Step(0, 0.05), Step(1, 0.05), Step(2, 0.06)], "more light"),
        ([Step(0, 0.05), Step(1, 0.10), Step(2, 0.20)], "smaller centre"),
        ([Step(1, 0.05), Step(2, 0.06), Step(3, 0.2)], "first without flash"),
    ],
)
def test_strips_that_do_not_show_the_threshold(read, says):
    with pytest.raises(InputError, match=says):
        threshold(read)


RISING = [
    Trial(0, 2.10, 2.08, 2.06),
    Trial(1, 2.09, 2.06, 1.99),
    Trial(2, 2.06, 2.00, 1.85),
    Trial(4, 2.03, 1.95, 1.70),
    Trial(8, 1.90, 1.80, 1.50),
]


def test_the_largest_flash_that_keeps_the_black():
    found = decide(RISING)
    assert found.chosen.flash_s == 4
    assert found.loss_d == pytest.approx(0.07)
    assert found.gain_d == pytest.approx(0.25 - 0.02)
    assert "8.0 s would lose 0.20 D" in found.reason


def test_a_tighter_limit_chooses_less():
    assert decide(RISING, most_loss_d=0.05).chosen.flash_s == 2


def test_no_further_than_the_separation_still_grows():
    peaked = [*RISING[:3], Trial(4, 2.05, 1.90, 1.78), RISING[4]]
    found = decide(peaked)
    assert found.chosen.flash_s == 2
    assert "no further" in found.reason


def test_a_paper_that_needs_none():
    found = decide([Trial(0, 2.10, 2.05, 1.90), Trial(1, 1.95, 1.90, 1.70)])
    assert found.chosen.flash_s == 0
    assert found.gain_d == 0


def test_the_band_without_flash_is_needed():
    with pytest.raises(InputError, match="without flash"):
        decide(RISING[1:])


def test_speed_gained_at_one_dark_grey():
    # Straight lines: both fall 0.3 D a stop, the flashed one starts a stop earlier.
    plain = [Patch(stops, 2.1 - 0.3 * max(0, stops - 2)) for stops in range(7)]
    flashed = [Patch(stops, 2.1 - 0.3 * max(0, stops - 1)) for stops in range(7)]
    assert speed_gain_stops(plain, flashed) == pytest.approx(1.0)
    with pytest.raises(InputError, match="flashed scale does not pass"):
        speed_gain_stops(plain, flashed[:2])


def test_flash_against_threshold():
    assert flash_dose_ratio(4, 2) == 1
    with pytest.raises(InputError):
        flash_dose_ratio(0, 2)
