"""The list by paper, verdict, defect and date, and the search of all words."""

import pytest
from tests.host.cli.day import Day, day, dry
from tests.host.notebook.journals import EVENING, PRINT_PROGRAM, SHA

from footlight.notebook.book import notebook
from footlight.notebook.journal import programs

__all__ = ["day"]


@pytest.fixture
def written(day: Day) -> Day:
    """Sheets 42 to 46 beside 41, on two papers."""
    day.home(*dry(42, 46, run=2))
    day.asked("paper add A baryta --size 8x10 --sheets 50")
    day.asked("paper add B 'resin coated' --size 8x10 --sheets 50")
    day.asked("paper assign A 41-43")
    day.asked("paper assign B 43-46")
    day.asked("write 41 --verdict good")
    day.asked("write 42 --verdict lost --defect mottle")
    day.asked("write 42 --verdict usable --defect stain")
    day.asked("write 44 --verdict usable --defect mottle")
    day.asked("write 45 --defect mottle")
    day.asked("undo")
    return day


@pytest.mark.parametrize(
    ("only", "numbers"),
    [
        ("--paper A", [42, 41]),
        ("--paper B", [46, 45, 44, 43]),
        ("--verdict usable", [44, 42]),
        ("--verdict lost", []),
        ("--defect mottle", [44, 42]),
        ("--defect mottle --paper A", [42]),
        ("--verdict usable --defect stain", [42]),
        ("--defect mottle --last 1", [44]),
        ("--since 2026-03-01", [46, 45, 44, 43, 42, 41]),
        ("--since 2026-03-02", []),
        ("--since 2026-03-01 --verdict good", [41]),
    ],
)
def test_the_list_is_filtered(written: Day, only: str, numbers: list[int]):
    assert [one["sheet"] for one in written.json(f"sheets {only}")] == numbers


def test_the_list_says_when_there_are_more(written: Day):
    assert written.asked("sheets --defect mottle --last 1").endswith("more fit: give a larger --last\n")
    assert "more fit" not in written.asked("sheets --defect mottle --last 2")


def test_every_kind_of_words_is_found(written: Day):
    written.asked("expose 42 --planned '4 s' --subject 'two chairs' --light 'open shade' --filter yellow")
    written.asked("lens add 'portrait lens' --focal '210 mm' --note 'soft wide open'")
    written.asked("session name 'first portraits'")
    written.asked("paper found A curls in winter")
    sequence = programs.Sequence(SHA, "PENCIL", "reversal print", PRINT_PROGRAM, "", "")
    with notebook(written.path, writing=True) as connection:
        programs.store(connection, sequence, EVENING)
        connection.execute(
            "INSERT INTO baths VALUES (1, 1, 'bleach', '', 'from the old stock', 'bleach', 1, 1, '')"
        )
        connection.execute("INSERT INTO bath_findings VALUES (1, 1, 1, 'note', NULL, 'foams', 5)")
    found = {
        word: [(one["kind"], one["sheet"] or one["about"]) for one in written.json(f"search {word}")]
        for word in (
            "chairs",
            "shade yellow",
            "soft",
            "portraits",
            "curls",
            "resin",
            "reversal",
            "stock",
            "foams",
        )
    }
    assert found == {
        "chairs": [("camera", 42)],
        "shade yellow": [("camera", 42)],
        "soft": [("lens", "portrait lens")],
        "portraits": [("session", "first portraits")],
        "curls": [("paper", "A")],
        "resin": [("paper", "B")],
        "reversal": [("sequence", "PENCIL")],
        "stock": [("bath", "bleach")],
        "foams": [("bath", "bleach")],
    }


def test_a_camera_exposure_is_found_once(written: Day):
    written.asked("expose 42 --planned '4 s' --subject 'two chairs'")
    written.asked("expose 42 --given '5 s'")
    assert len(written.json("search chairs")) == 1
    written.asked("undo")
    assert len(written.json("search chairs")) == 1
    written.asked("undo")
    assert written.json("search chairs") == []
