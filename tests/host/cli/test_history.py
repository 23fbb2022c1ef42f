"""What was entered, what was taken back, and one act by its number."""

import pytest
from tests.host.cli.day import Day, day

__all__ = ["day"]


def acts(day: Day) -> list[tuple[int, bool]]:
    return [(one["id"], one["undone_unix_s"] is None) for one in day.json("history")]


def test_the_history_shows_also_what_was_taken_back(day: Day):
    day.asked("write 41 first")
    day.asked("write 41 second")
    day.asked("undo")
    assert acts(day) == [(2, False), (1, True)]
    lines = day.asked("history").splitlines()
    assert "sheet 41: note second (taken back" in lines[1] and lines[2].endswith("sheet 41: note first")
    assert len(day.asked("history --last 1").splitlines()) == 2


def test_one_act_is_taken_back_from_among_others(day: Day):
    for word in ("first", "second", "third"):
        day.asked(f"write 41 {word}")
    assert day.asked("undo 2") == "taken back: sheet 41: note second\n"
    assert [one["text"] for one in day.json("sheet 41")["written"]] == ["first", "third"]
    assert "was taken back already" in day.refused("undo 2")
    assert "there is none" in day.refused("undo 9")


def test_what_later_acts_need_stays(day: Day):
    day.asked("paper add A baryta --size 8x10 --sheets 9")
    day.asked("expose 60 --planned '4 s'")
    day.asked("write 60 a note")
    # The paper was given to sheet 60 by the second act; the note is written about a sheet that it made.
    assert "act 2 (sheet 60 in the camera; planned 4.0 s" in day.refused("undo 1")
    assert "act 3 (sheet 60: note a note) needs it" in day.refused("undo 2")
    for _ in range(3):
        day.asked("undo")
    assert "nothing to take back" in day.refused("undo")
    assert [one["sheet"] for one in day.json("sheets")] == [41]


def test_light_setups_over_time(day: Day):
    from footlight.notebook.acts import act
    from footlight.notebook.book import notebook
    from footlight.notebook.stock import light_setups

    for before, after in (("", "6 s"), ("6 s", "5.5 s")):
        with notebook(day.path, writing=True) as connection, act(connection, "accepted", 5) as act_id:
            change = light_setups.Change("setups.toml", "second exposure", before, after)
            light_setups.note(connection, act_id, [change])
    assert [one["after"] for one in day.json("setups")] == ["5.5 s", "6 s"]
    assert day.json("setups other") == []
    assert "second exposure  6 s" in day.asked("setups 'second exposure'")
    day.asked("undo")
    assert [one["after"] for one in day.json("setups")] == ["6 s"]


@pytest.mark.parametrize(
    "name", ["history", "setups", "undo", "reinstate", "attach", "expose", "paper", "lens", "session"]
)
def test_help_teaches_by_an_example(day: Day, name: str):
    example = day.asked(f"{name} --help").partition("Example:\n")[2]
    assert example.strip().startswith(f"footlight {name}")
