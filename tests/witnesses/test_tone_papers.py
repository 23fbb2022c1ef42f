"""The simulator of papers holds what it says: light adds, weights are physics, a question has one answer."""

from dataclasses import replace

import colour
import numpy as np
import pytest
from scipy.interpolate import PchipInterpolator
from scipy.optimize import isotonic_regression
from tests.witnesses.tone_papers import judge, papers, spectra
from tests.witnesses.tone_papers.cases import FLASH_S, Case, case
from tests.witnesses.tone_papers.papers import Light
from tests.witnesses.tone_papers.spectra import WAVE_NM, Sensitivity


def a_paper(number: int) -> papers.Paper:
    return papers.paper(np.random.default_rng(number))


@pytest.mark.parametrize("number", range(12))
def test_a_positive_falls_with_light_from_its_black_to_its_white(number: int):
    paper = a_paper(number)
    density = paper.density_d([Light("daylight", np.geomspace(1e-3, 1e3, 400), 1.0)])
    assert np.all(np.diff(density) < 1e-12)
    assert density[0] == pytest.approx(paper.black_d, abs=0.01)
    assert density[-1] == pytest.approx(paper.white_d, abs=0.02)
    assert paper.black_d > 1.3 and paper.white_d < 0.25


@pytest.mark.parametrize("number", range(6))
def test_exposures_add_as_light(number: int):
    # Additivity of exposures, exact: two of one colour and time are one of their sum, whatever the curve.
    paper = a_paper(number)
    parts = paper.density_d([Light("daylight", 0.6, 2.0), Light("daylight", 0.9, 2.0)])
    assert parts == pytest.approx(paper.density_d([Light("daylight", 1.5, 2.0)]))
    lights = [Light("daylight", 1.0, 1.0), Light("tungsten", 1.0, 1.0)]
    weights = paper.weights[0]
    assert paper.effective_lx_s(lights, 0) == pytest.approx(weights["daylight"] + weights["tungsten"])


def test_long_exposures_follow_the_law():
    # Schwarzschild's law: t seconds act as t^p of one.
    paper = replace(a_paper(1), reciprocity_p=0.9)
    eight_s = paper.effective_lx_s([Light("daylight", 8.0, 8.0)], 0)
    assert eight_s == pytest.approx(8.0**0.9)


@pytest.mark.parametrize("name", ["shade", "tungsten"])
@pytest.mark.parametrize("layer", [Sensitivity(480.0, 0.0), Sensitivity(475.0, 0.8)])
def test_weights_by_light_against_colour_science(name: str, layer: Sensitivity):
    # Black bodies and the CIE 1924 luminous efficiency as colour-science has them.
    shape = colour.SpectralShape(380, 720, 5)
    efficiency = colour.SDS_LEFS["CIE 1924 Photopic Standard Observer"].copy().align(shape).values

    def seen(kelvin: float) -> float:
        spectrum = colour.sd_blackbody(kelvin, shape).values
        return float((spectrum * layer.at(WAVE_NM)).sum() / (spectrum * efficiency).sum())

    expected = seen(spectra.LIGHTS_K[name]) / seen(spectra.LIGHTS_K["daylight"])
    assert spectra.weight(layer, name) == pytest.approx(expected, rel=0.02)


def test_yellow_light_softens_a_multigrade_and_magenta_hardens_it():
    # Common practice of the trade.
    paper = next(paper for paper in map(a_paper, range(50)) if len(paper.layers) == 2)

    def scale_stops(name: str) -> float:
        ends = [paper.lx_s_for(density, name, 1.0, []) for density in (1.3, 0.3)]
        return float(np.log2(ends[1] / ends[0]))

    assert scale_stops("tungsten magenta") < scale_stops("tungsten") < scale_stops("tungsten yellow")


def test_an_exposure_is_found_for_a_density():
    paper = a_paper(3)
    lx_s = paper.lx_s_for(0.8, "shade", 4.0, [Light("tungsten", 0.1, 2.0)])
    parts = [Light("shade", lx_s, 4.0), Light("tungsten", 0.1, 2.0)]
    assert paper.density_d(parts) == pytest.approx(0.8, abs=1e-6)


def test_a_seed_is_one_case():
    assert repr(case(5)) == repr(case(5))
    assert repr(case(5).prints) != repr(case(6).prints)


def test_a_wanted_tone_has_one_best_exposure():
    printer = case(8)
    for aim in judge.wanted(printer):
        best = judge.moved(aim.place, judge.best_stops(printer.truth, aim))
        assert judge.answer_d(printer.truth, best) == pytest.approx(aim.density_d, abs=1e-6)


def interpolation(printer: Case, flash_counts: bool = True) -> judge.Predict:
    """The plainest of fits: PCHIP through the first sheet, made monotone; flash, flare, time by the notes."""
    notes, sheet = printer.notes, printer.sheets[0]
    flare = notes.flare_share if sheet.source == "camera" else 0.004
    share = notes.flash_share if flash_counts else 0.0
    if sheet.colour != notes.camera_colour:
        raise ValueError("the first sheet has the camera's colour")

    def stops(own: np.ndarray, stray: float, seconds: float, flash_lx_s: float) -> np.ndarray:
        power = notes.reciprocity_p - 1
        return np.log2((own + stray) * seconds**power + share * flash_lx_s * FLASH_S**power)

    steps = sorted(sheet.steps, key=lambda step: step.lx_s)
    own = np.array([step.lx_s for step in steps])
    seen = isotonic_regression([step.density_d for step in steps], increasing=False).x
    places = stops(own, flare * sheet.mean_lx_s, sheet.duration_s, sheet.flash_lx_s)
    curve = PchipInterpolator(places, seen)

    def predict(asked: judge.Question) -> judge.Answer:
        stray = notes.flare_share * asked.mean_lx_s
        at = stops(np.array(asked.lx_s), stray, asked.duration_s, asked.flash_lx_s)
        at = np.clip(at, places[0], places[-1])
        density, slope = float(curve(at)), abs(float(curve.derivative()(at)))
        half = 1.645 * float(np.hypot(0.075 * slope, 0.012))
        beyond = not own[0] <= asked.lx_s <= own[-1]
        return judge.Answer(density, density - half, density + half, beyond)

    return predict


def test_a_plain_interpolation_can_answer_and_one_blind_to_the_flash_cannot():
    """Notes, sheets and questions speak of one paper; and the questions tell a fit that is wrong."""
    printers = [case(seed) for seed in range(25)]
    good = judge.shares([judge.marks(one, interpolation(one)) for one in printers], 0.12)
    blind = judge.shares([judge.marks(one, interpolation(one, flash_counts=False)) for one in printers], 0.12)
    assert good["within"] > 95 and good["beyond, unsaid"] == 0 and 80 < good["covered"] < 98
    assert blind["within"] < 75
