"""Batches of paper: counted, found out about, and filled in for sheets that come home."""

import pytest
from tests.host.cli.day import Day, day, dry
from tests.host.notebook.journals import EVENING

from footlight.notebook.journal import paper_home
from footlight.views import journal_home

__all__ = ["day"]


def test_a_batch_is_counted(day: Day):
    day.asked("paper add A 'baryta, glossy' --size 8x10 --sheets 25")
    day.asked("paper spoiled A 2 cut up for strips")
    day.asked("paper assign A 41")
    (batch,) = day.json("paper list")
    # 25 bought, one of them sheet 41, two cut up.
    assert (batch["used"], batch["spoiled"], batch["left"], batch["in_use"]) == (1, 2, 22, True)
    day.asked("undo")
    assert day.json("paper list")[0]["left"] == 23


def test_the_last_value_of_a_kind_holds_and_all_are_kept(day: Day):
    day.asked("paper add A baryta --size 8x10 --sheets 25 --speed 6")
    day.asked("paper found A --speed 4 --pre-flash '-1/3 stop' --setup 'flash at 1500' curls")
    shown = day.json("paper show A")
    assert shown["speed"] == 4
    assert [(one["kind"], one["value"]) for one in shown["findings"]] == [
        ("speed", 6),
        ("speed", 4),
        ("pre-flash", pytest.approx(-1 / 3)),
        ("note", None),
    ]
    assert "-1/3 stop with 'flash at 1500'" in day.asked("paper show A")
    day.asked("undo")
    assert day.json("paper show A")["speed"] == 6


def test_a_sheet_is_of_the_batch_that_was_written_last(day: Day):
    for name in "AB":
        day.asked(f"paper add {name} baryta --size 8x10 --sheets 10")
    day.asked("write 41 --paper A")
    day.asked("write 41 --paper B")
    assert [batch["used"] for batch in day.json("paper list")] == [0, 1]
    assert day.json("sheet 41")["paper"]["name"] == "B"
    assert day.json("paper show B")["numbers"] == [41]
    day.asked("undo")
    assert [batch["used"] for batch in day.json("paper list")] == [1, 0]


@pytest.fixture
def before(monkeypatch: pytest.MonkeyPatch) -> None:
    """What is typed is typed before the evening: the boxes were there when the sheets had their light."""
    monkeypatch.setattr("time.time", lambda: EVENING - 86_400.0)


def test_a_box_that_came_later_is_not_charged(day: Day):
    day.know_program("10x8")
    day.asked("paper add A baryta --size 8x10 --sheets 10")  # today; the evening was in March
    assert day.home(*dry(42, 44, run=2)).given == {}
    assert day.json("paper list")[0]["used"] == 0


def test_sheets_that_come_home_are_of_the_batch_in_use_for_their_size(day: Day, before: None):
    day.know_program("10x8")
    day.asked("paper add small 'resin coated' --size 5x7 --sheets 10")
    day.asked("paper add A baryta --size 8x10 --sheets 10")
    day.asked("paper add B baryta --size '203.2 x 254 mm' --sheets 10")
    assert day.home(*dry(42, 44, run=2)).given == {"A": [42, 43, 44]}
    day.asked("paper use B")
    assert day.home(*dry(45, 46, run=3)).given == {"B": [45, 46]}
    # Home again changes nothing, nor does it do again what was undone.
    day.asked("undo")
    assert day.home((30_000, "end", 3, 46, "whole")).given == {}


def test_a_batch_with_too_few_left_is_said(day: Day, before: None):
    day.asked("paper add A baryta --size 8x10 --sheets 2")
    filled = day.home(*dry(42, 45, run=2))
    assert (filled.given, filled.short) == ({"A": [42, 43]}, {"A": [44, 45]})
    assert journal_home.paper_lines(filled) == [
        "paper A, which is in use, for 42–43: 'footlight write NUMBER --paper NAME' corrects one",
        "paper A has no sheets left by the count for 44–45: 'footlight paper use' changes over, "
        "'footlight paper assign' fills in",
    ]


def test_without_a_batch_nothing_is_said(day: Day):
    assert day.home(*dry(42, 45, run=2)) == paper_home.Filled()


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("paper add A baryta --size 9x9 --sheets 5", "no trade size in inches"),
        ("paper add A baryta --size 8x10 --sheets 5 --speed 0", "EI 0 is out of range"),
        ("paper add ' ' baryta --size 8x10 --sheets 5", "a name of at least one letter"),
        ("paper add box baryta --size 8x10 --sheets 5", "there is such a batch already"),
        ("paper show bux", "there is no such batch; did you mean 'box'?"),
        ("paper found box", "nothing to write"),
        ("paper found box --second much", "is not a number of stops"),
        ("paper spoiled box 11", "only 10 left by the count"),
        ("paper assign box 43-41", "no number of a sheet"),
        ("paper assign box 41 42", "sheet 42: not in the notebook"),
        ("write 41 --paper bux", "no such batch"),
    ],
)
def test_what_cannot_be(day: Day, line: str, said: str):
    day.asked("paper add box baryta --size 8x10 --sheets 10")
    assert said in day.refused(line)
    assert [batch["name"] for batch in day.json("paper list")] == ["box"]
