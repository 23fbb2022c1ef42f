"""First-order propagation against Monte Carlo, and against the figure worked out by hand."""

import math
import random

import numpy as np
import pytest
from scipy import stats

from footlight.light import tolerances
from footlight.light.exposure import convert
from footlight.light.setup import Arrangement, Departure
from footlight.light.tolerances import REASONS, Tolerances
from footlight.light.uncertainty import Budget, Term, held_stops, power_stops
from footlight.quantities import FStop

TRIALS = 20_000


def at(height_mm: float, f_number: float = 11.0, **more) -> Arrangement:
    return Arrangement("head", "80 mm", 80.0, FStop.of_number(f_number), height_mm, **more)


def spread(draw) -> float:
    """Standard deviation of log2 of what `draw` gives, over seeded trials."""
    rng = random.Random(20)
    values = [math.log2(draw(rng)) for _ in range(TRIALS)]
    mean = sum(values) / TRIALS
    return math.sqrt(sum((value - mean) ** 2 for value in values) / (TRIALS - 1))


# First order by hand: 2/ln2·(10/620 − 10/800) = 0.0105, since one scale's error is in both heights; with a
# millimetre at each, 2/ln2·√((1/620)² + (1/800)²) = 0.0059, it is 0.0120.
def test_two_heights_share_the_error_of_their_scale():
    found = convert(6, at(620), at(800), departure=Departure(1.0, 0.0))
    terms = [term for term in found.budget.terms if term.cause == "the height"]
    assert terms[0].stops == pytest.approx(0.0105, abs=5e-5)
    assert Budget(tuple(terms)).stops == pytest.approx(0.0120, abs=5e-5)


# Another lens has its pupil elsewhere: 2/ln2·√((10/620)² + (10/800)²) = 0.0589, 0.0592 with the millimetres.
def test_under_another_lens_the_heights_share_nothing():
    other = Arrangement("head", "50 mm", 50.0, FStop.of_number(11), 800)
    found = convert(6, at(620), other, departure=Departure(1.0, 0.0))
    terms = [term for term in found.budget.terms if term.cause == "the height"]
    assert Budget(tuple(terms)).stops == pytest.approx(0.0592, abs=5e-5)


def test_every_change_at_once_against_monte_carlo():
    given = Tolerances(height_mm=8, scale_mm=2, stop_stops=0.05, nd_density_d=0.01, dead_ms=20)
    found = convert(
        6, at(620, 11), at(800, 8, nd_density_d=0.3), departure=Departure(0.92, 0.03), tolerances=given
    )

    def draw(rng: random.Random) -> float:
        begins = rng.gauss(0, 8)
        heights = (800 + begins + rng.gauss(0, 2)) / (620 + begins + rng.gauss(0, 2))
        stops = 2 * math.log2(heights) + 2 * math.log2(8 / 11)
        stops += rng.gauss(0, 0.05) + rng.gauss(0, 0.05) + rng.gauss(0.3, 0.01) * math.log2(10)
        dead_s = rng.gauss(0, 0.02)
        return (6 - dead_s) * 2 ** (stops / rng.gauss(0.92, 0.03)) + dead_s

    assert found.budget.stops == pytest.approx(spread(draw), rel=0.03)


def test_an_unmeasured_exponent_anywhere_between_0_8_and_1_against_monte_carlo():
    given = Tolerances(height_mm=1e-9, scale_mm=1e-9, dead_ms=0)
    found = convert(6, at(500), at(1000), tolerances=given)
    assert found.budget.standard_stops == pytest.approx(
        spread(lambda rng: 4 ** (1 / rng.uniform(0.8, 1.0))), rel=0.03
    )


@pytest.mark.parametrize(("normal", "limit"), [(1.0, 0.0), (0.0, 1.0), (0.1, 1.0), (1.0, 1.0), (1.0, 0.1)])
def test_what_two_of_three_cases_lie_within(normal: float, limit: float):
    """Held against scipy's distributions, added up by drawing: 68.27 % within."""
    rng = np.random.default_rng(3)
    drawn = stats.norm.rvs(0, normal or 1e-9, 400_000, random_state=rng)
    drawn += stats.uniform.rvs(-limit, 2 * limit, 400_000, random_state=rng)
    assert np.mean(np.abs(drawn) < held_stops(normal, limit)) == pytest.approx(0.6827, abs=0.003)


def test_only_what_changed_is_in_doubt():
    causes = {term.cause for term in convert(6, at(620, 11), at(620, 8)).budget.terms}
    assert "the height" not in causes
    assert "the stop" in causes


@pytest.mark.parametrize(
    ("terms", "text"),
    [
        ([], ""),
        ([("a", "x", 0.001)], ""),
        ([("a", "x", 0.1)], "± 0.10 stop, from a (x)"),
        ([("a", "x", 0.1), ("b", "y", 0.05)], "± 0.11 stop, mostly a (x)"),
        ([("a", "x", 0.1), ("b", "y", 0.1), ("c", "z", 0.01)], "± 0.14 stop, from a (x) and b (y)"),
        ([("b", "y", 0.1), ("a", "x", 0.08), ("a", "x", 0.08)], "± 0.15 stop, mostly a (x)"),
    ],
)
def test_the_sentence(terms, text):
    assert str(Budget(tuple(Term(*term) for term in terms))) == text


def test_a_budget_as_a_factor():
    assert Budget((Term("a", "x", 1.0),)).factor == 2.0
    assert power_stops(620, 10, 2) == pytest.approx(0.04654, abs=5e-6)


def test_every_default_has_a_reason_that_names_where_it_is_from():
    assert set(REASONS) == set(vars(tolerances.Tolerances()))
    for reason in REASONS.values():
        assert any(word in reason for word in ("common practice", "from memory", "arithmetic", "JCGM"))
