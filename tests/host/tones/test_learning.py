"""What prints teach, what is asked about, and the simulated papers of `tests/witnesses/tone_papers`."""

import colour
import pytest
from tests.host.tones.papers import a_paper, a_print, density_d
from tests.soak.tones import after_one_sheet, after_prints, marks_of
from tests.witnesses.tone_papers import judge
from tests.witnesses.tone_papers.cases import batches_of, case

from footlight.errors import InputError
from footlight.tones.advice import best, settings_for, stops_for
from footlight.tones.exposures import Exposure
from footlight.tones.look import lightness, word
from footlight.tones.scene import Scene

MIDDLE = Exposure(1.0, 1.0, 1.0)


@pytest.mark.parametrize("density", [0.0, 0.1, 0.5, 0.9, 1.5, 2.0, 2.5])
def test_lightness_against_colour_science(density: float):
    # CIE 15; Y of the perfect white is 100.
    expected = colour.lightness(100 * 10**-density, method="CIE 1976")
    assert lightness(density) == pytest.approx(float(expected), abs=1e-3)


def test_words_go_from_black_to_white():
    curve = a_paper().curve
    told = [word(density, curve) for density in (2.04, 1.7, 0.8, 0.3, 0.09)]
    assert told == ["full black", "dark with texture", "middle", "light with texture", "paper white"]


def test_prints_move_the_curve_by_their_share():
    """Ten prints that all had a tenth of a stop more light than planned: most of it is learnt, and surer."""
    known = before = a_paper()
    for _ in range(10):
        known, lesson = known.after(a_print(off_stops=0.1))
        assert lesson.question == ""
    moved = stops_for(before, MIDDLE, 1.0).stops - stops_for(known, MIDDLE, 1.0).stops
    assert 0.07 < moved < 0.11
    assert known.tone(MIDDLE).high_d - known.tone(MIDDLE).low_d < (
        0.8 * (before.tone(MIDDLE).high_d - before.tone(MIDDLE).low_d)
    )
    off_d = density_d(2.0**0.1) - density_d(1.0)
    assert known.learnt_curve().at(0.0) - before.curve.at(0.0) == pytest.approx(off_d, abs=0.04)


def test_one_print_moves_less_than_it_departs():
    # Normal priors: the share is that of the variances, between none and all.
    known, _ = a_paper().after(a_print(off_stops=0.1))
    moved = a_paper().density_d(MIDDLE) - known.density_d(MIDDLE)
    whole = density_d(1.0) - density_d(2.0**0.1)
    assert 0.15 * whole < moved < 0.85 * whole


def test_a_spoilt_print_is_asked_about_and_changes_nothing():
    before = a_paper()
    known, lesson = before.after(a_print(black_loss=0.3))
    assert known == before
    assert "blacks are weak" in lesson.question and len(lesson.residuals) == 6


def test_another_batch_is_less_sure():
    known = a_paper()
    for _ in range(6):
        known, _ = known.after(a_print())
    wider = known.of_another_batch().tone(MIDDLE)
    assert wider.high_d - wider.low_d > 1.5 * (known.tone(MIDDLE).high_d - known.tone(MIDDLE).low_d)


def test_beyond_the_steps_is_said():
    known = a_paper()
    assert not known.tone(Exposure(2.0**4.9, 1.0, 1.0)).is_beyond
    assert known.tone(Exposure(2.0**5.1, 1.0, 1.0)).is_beyond
    assert known.tone(Exposure(2.0**-5.1, 1.0, 1.0)).is_beyond


def test_a_tone_that_the_paper_has_not():
    with pytest.raises(InputError, match="cannot be had"):
        stops_for(a_paper(), MIDDLE, 2.5)


def test_advice_for_two_tones_takes_the_least_flash_that_holds_them():
    scene = Scene("yard", {"soil": 5.0, "wall": 8.0}, 8.125, 8.0, 1.0)
    known = a_paper()
    exposed = {name: known.density_d(scene.with_plan(1.0, 0.5).exposure(name)) for name in scene.places}
    found = best(settings_for(known, scene, exposed, (0.0, 0.25, 0.5, 0.8)))
    assert (found.flash, found.stops) == (0.5, pytest.approx(1.0, abs=0.06)) and found.is_held
    # One tone alone can be had with any of them: the least costs the least black.
    assert best(settings_for(known, scene, {"soil": exposed["soil"]}, (0.25, 0.0, 0.5))).flash == 0.0
    none = best(settings_for(known, scene, {"soil": 1.0, "wall": 0.9}, (0.0, 0.3)))
    assert not none.is_held


def test_simulated_papers():
    """The judge of `tests/witnesses/tone_papers`, few of them; `python -m tests.soak.tones 500` for many."""
    first, last = [], []
    for seed in range(12):
        printer = case(seed)
        first.append(marks_of(printer, after_one_sheet(printer), "A"))
        last.append(marks_of(printer, after_prints(printer)[0], batches_of(printer.prints)[-1]))
    assert judge.shares(first, 0.12)["within"] > 95 and judge.shares(last, 0.08)["within"] > 92
    for marks in (first, last):
        shares = judge.shares(marks, 0.12)
        assert shares["beyond, unsaid"] == 0 and 78 < shares["covered"] < 99
        assert shares["advice within 0.15 stop"] > 85
