"""What prints teach about a bath's limits: each rule worked by hand."""

import random
import sqlite3
import statistics

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.host.baths.darkroom import EVENING, HOUR, Darkroom, compiled
from tests.host.baths.test_visits import mixed, stands

from footlight.baths.forecast import Need, outlook
from footlight.baths.learning import Judged, Stood, by_age, by_use, cut, narrowed, says
from footlight.chemistry.capacity import TRADE
from footlight.notebook.acts import act
from footlight.notebook.sheets import by_number, remarks
from footlight.notebook.sheets.verdicts import Verdict
from footlight.notebook.stock import baths
from footlight.notebook.stock.baths import Finding

BLEACH, DEVELOPER = ("bleach", "peroxide bleach"), ("developer", "")


def bleach(per_l: float, age_h: float = 0.5) -> Stood:
    return Stood(BLEACH, TRADE["bleach"], per_l, age_h)


def developer(per_l: float, age_h: float = 0.5) -> Stood:
    return Stood(DEVELOPER, TRADE["developer"], per_l, age_h)


@pytest.mark.parametrize(
    ("good", "spoilt", "expected"),
    [
        ([], [], (4, 15)),  # nothing known: where the trade begins
        ([2], [], (4, 15)),  # still good below the range: no news
        ([2, 6], [], (6, 15)),  # still good within it: watched from there
        ([20], [], (20, 20)),  # still good beyond it: widened so far and no further
        ([], [9], (4, 9)),
        ([6, 3], [9, 11], (6, 9)),
        ([6], [40], (6, 15)),  # spoilt far beyond: no reason to go there
        ([20], [24], (20, 24)),
        ([2], [3], (2, 3)),  # spoilt before the range begins
        ([], [3], (0.8, 3)),  # and nothing good known: in the range's proportion
        ([9], [7], (4, 7)),  # one against one: the safe side
        ([9, 10], [7], (10, 15)),  # two against one: something else spoilt it
        ([5, 6, 12], [10, 11, 13], (6, 10)),  # one good by luck among the spoilt
    ],
)
def test_a_range_between_good_and_spoilt(
    good: list[float], spoilt: list[float], expected: tuple[float, float]
):
    assert narrowed((4, 15), good, cut(good, spoilt)) == pytest.approx(expected, rel=2e-3)


VALUES = st.lists(st.floats(0, 200), max_size=12)


@given(good=VALUES, spoilt=VALUES.map(lambda values: [value + 1e-6 for value in values]))
def test_a_range_is_a_range_whatever_was_seen(good: list[float], spoilt: list[float]):
    least, most = narrowed((4, 15), good, cut(good, spoilt))
    assert 0 < least <= most <= max([15, *good, *spoilt])


def invented(rng: random.Random, evenings: int) -> tuple[float, list[Judged]]:
    """A darkroom whose bleach really holds so many a litre, each batch within 7 %. Beyond it 19 of 20 prints
    are spoilt; 3 of 100 are spoilt by something else, wherever they are."""
    holds, prints = rng.uniform(5, 14), []
    for _ in range(evenings):
        this = holds * rng.gauss(1, 0.07)
        for use in range(1, rng.randint(4, 12) + 1):
            spoilt = (use > this and rng.random() < 0.95) or rng.random() < 0.03
            prints.append(Judged(len(prints), not spoilt, (bleach(float(use), 0.1 * use),)))
    return holds, prints


def test_what_is_learned_comes_near_what_is_true():
    # 300 invented darkrooms of ten evenings. The trade's 15 would be 1.6 times too much in the middle.
    rng = random.Random(2026)
    ratios = []
    for _ in range(300):
        holds, prints = invented(rng, 10)
        learned = by_use(prints, BLEACH, (4, 15))
        assert learned is not None
        ratios.append(learned.span[1] / holds)
    assert 0.95 < statistics.median(ratios) < 1.12
    assert sorted(ratios)[15] > 0.85 and sorted(ratios)[-30] < 1.35


@pytest.mark.parametrize(
    ("verdict", "defects", "expected"),
    [
        ("good", (), True),
        ("good", ("drop",), True),
        ("good", ("veil",), None),
        ("usable", ("mottle",), False),
        ("lost", ("stain", "tongs"), False),
        ("lost", ("tongs",), None),
        ("usable", (), None),
        (None, ("mottle",), None),
    ],
)
def test_what_a_verdict_says_of_baths(verdict: str | None, defects: tuple[str, ...], expected: bool | None):
    assert says(Verdict(verdict, frozenset(defects))) is expected


def test_a_spoilt_print_is_held_against_the_bath_that_was_furthest_through_its_range():
    # Bleach at 9 of 15 (0.6), developer at 40 of 50 (0.8): it is the developer.
    prints = [Judged(1, True, (bleach(8), developer(30))), Judged(2, False, (bleach(9), developer(40)))]
    learned = by_use(prints, DEVELOPER, (15, 50))
    assert learned is not None
    assert learned.span == pytest.approx((30, 40), rel=2e-3) and (learned.good, learned.spoilt) == (1, 1)
    assert learned.text == "from 1 good print and 1 spoilt"
    other = by_use(prints, BLEACH, (4, 15))
    assert other is not None and (other.span, other.spoilt) == ((8, 15), 0)


def test_age_may_be_the_cause():
    # Bleach at 5 of 15 (0.33) and 3 of 4 hours (0.75): it is the age.
    learned = by_age([Judged(1, False, (bleach(5, 3.0),))], BLEACH, (2, 4))
    assert learned is not None and learned.text == "from 1 spoilt print"
    assert learned.span == pytest.approx((2, 3), rel=2e-3) and learned.span[1] < 3
    assert by_use([Judged(1, False, (bleach(5, 3.0),))], BLEACH, (4, 15)) is None


def test_a_print_spoilt_in_fresh_baths_teaches_nothing():
    assert by_use([Judged(1, False, (bleach(3, 1.0),))], BLEACH, (4, 15)) is None


def test_what_speaks_against_it_is_said():
    prints = [Judged(1, False, (bleach(7),)), Judged(2, True, (bleach(9),)), Judged(3, True, (bleach(10),))]
    learned = by_use(prints, BLEACH, (4, 15))
    assert learned is not None and learned.span == (10, 15)
    assert learned.text == "from 2 good prints and 1 spoilt, 1 of them against it"


def judged(book: sqlite3.Connection, sheet: int, *entries: tuple[str, str]) -> None:
    with act(book, "judged", EVENING + 10 * HOUR) as act_id:
        remarks.put(book, act_id, by_number.find(book, sheet)["id"], entries)


def test_verdicts_in_the_notebook_move_the_limits(book: sqlite3.Connection, darkroom: Darkroom):
    # Half a litre of bleach: each 8x10 is 2 a litre. Sheets 1 to 4 good: good at 8 a litre; sheet 5 mottled
    # at 10 of 15 a litre (0.67); the fixer is at 5 of 40 then, the clearing bath at 5 of 40, the developer at
    # 10 of 50, and no bath is older than 1.5 h (of 4: 0.37).
    one = darkroom.know(compiled())
    mixed(book, EVENING - 600)
    mixed(book, EVENING - 600, [("bleach", "bleach")], 500.0)
    for sheet in range(1, 6):
        darkroom.carry_out(one, sheet, EVENING + (sheet - 1) * 1200)
    assert stands(book, "bleach").known.use_from == "the trade's range"  # type: ignore[union-attr]
    for sheet in range(1, 5):
        judged(book, sheet, ("verdict", "good"))
    judged(book, 5, ("verdict", "usable"), ("defect", "mottle"))
    known = stands(book, "bleach").known
    assert known is not None
    assert known.limits.sheets_per_l == pytest.approx((8.0, 10.0), rel=2e-3)
    assert known.use_from == "from 4 good prints and 1 spoilt"
    assert known.age_from == "the trade's range"
    assert stands(book, "fixer").known.limits == TRADE["fixer"]  # type: ignore[union-attr]
    # The fifth sheet of the next such bath comes to what was spoilt before, and is warned of.
    mixed(book, EVENING + 3 * HOUR, [("bleach", "bleach")], 500.0)
    needs = [Need(sheet, 1.0, 0.0) for sheet in range(1, 7)]
    assert outlook("bleach", stands(book, "bleach", EVENING + 3 * HOUR), needs, 0).fresh_before == 5


def test_an_own_figure_counts_before_all_and_is_carried_over_by_volume(book: sqlite3.Connection):
    mixed(book, EVENING, [("bleach", "bleach")], 500.0)
    own = [Finding("sheets", 6.0, at_unix_s=EVENING), Finding("hours", 3.0, at_unix_s=EVENING)]
    baths.note(book, [(baths.current(book, "bleach"), one) for one in own], EVENING)
    mixed(book, EVENING + 60, [("bleach", "bleach")], 1000.0)
    known = stands(book, "bleach").known
    assert known is not None
    assert known.limits.sheets_per_l == (9.0, 12.0) and known.limits.tray_h == (2.25, 3.0)
    assert (known.use_from, known.age_from) == ("your own figure", "your own figure")


def test_another_kind_of_bath_has_no_limits_until_they_are_written(book: sqlite3.Connection):
    mixed(book, EVENING, [("toner", "other")])
    toner = stands(book, "toner")
    assert toner.known is None and toner.left is None and toner.state is None
    own = [Finding("sheets", 10.0, at_unix_s=EVENING), Finding("hours", 2.0, at_unix_s=EVENING)]
    baths.note(book, [(toner.bath, one) for one in own], EVENING)
    assert stands(book, "toner", EVENING).state == "good"
    assert stands(book, "toner", EVENING + 2 * HOUR).state == "mix fresh"
