"""What was taken back stands again, unless it no longer fits; and the history keeps every turn."""

from pathlib import Path

import pytest
from tests.host.cli.day import Day, day, dry

from footlight import examples
from footlight.actions.accept_dose import accept_dose, plan_references
from footlight.notebook.acts import act
from footlight.notebook.book import notebook

__all__ = ["day"]


def notes(day: Day) -> list[str]:
    return [one["text"] for one in day.json("sheet 41")["written"]]


def test_an_undo_too_many_is_mended(day: Day):
    for word in ("first", "second", "third"):
        day.asked(f"write 41 {word}")
    day.asked("undo")
    day.asked("undo")
    assert day.asked("reinstate") == "reinstated: sheet 41: note second\n"
    assert notes(day) == ["first", "second"]
    assert day.json("reinstate")["reinstated"] == "sheet 41: note third"
    assert notes(day) == ["first", "second", "third"]
    assert "nothing to reinstate" in day.refused("reinstate")


def test_one_is_chosen_by_its_number(day: Day):
    for word in ("first", "second"):
        day.asked(f"write 41 {word}")
    day.asked("undo")
    day.asked("undo")
    day.asked("reinstate 2")
    assert notes(day) == ["second"]
    assert "act 2: stands" in day.refused("reinstate 2")
    assert "act 9: there is none" in day.refused("reinstate 9")


def test_it_takes_its_old_place_in_the_order(day: Day):
    day.asked("write 41 --verdict good")
    day.asked("undo")
    day.asked("write 41 --verdict lost")
    day.asked("reinstate")
    assert day.json("sheets")[0]["verdict"] == "lost"
    day.asked("undo 2")
    assert day.json("sheets")[0]["verdict"] == "good"


def test_every_turn_is_kept(day: Day):
    day.asked("write 41 a note")
    for command in ("undo", "reinstate", "undo"):
        day.asked(command)
    (act,) = day.json("history")
    assert [turn["kind"] for turn in act["turns"]] == ["taken back", "reinstated", "taken back"]
    assert act["undone_unix_s"] == act["turns"][-1]["at_unix_s"]
    assert day.asked("history").count("taken back") == 2


def test_what_it_rests_on_comes_first(day: Day):
    day.asked("paper add A baryta --size 8x10 --sheets 9")
    day.asked("paper found A --speed 4")
    day.asked("undo")
    day.asked("undo")
    assert "needs act 1 (paper A: baryta, 8x10, 9 sheets)" in day.refused("reinstate 2")
    day.asked("reinstate 1")
    day.asked("reinstate 2")
    assert day.json("paper list")[0]["speed"] == 4


def test_a_name_is_not_given_to_two_papers(day: Day):
    day.asked("paper add A baryta --size 8x10 --sheets 9")
    day.asked("undo")
    day.asked("paper add A 'resin coated' --size 8x10 --sheets 9")
    assert "another batch of paper 'A' by now" in day.refused("reinstate")


def test_a_sheet_that_came_home_meanwhile_is_not_made_twice(day: Day):
    day.asked("expose 60 --planned '4 s'")
    day.asked("undo")
    day.home(*dry(60, 61, run=2))
    assert "sheet 60 is in the notebook by now" in day.refused("reinstate")


def test_nor_one_that_was_written_down_twice(day: Day):
    for _ in range(2):
        day.asked("expose 60 --planned '4 s'")
        day.asked("undo")
    day.asked("reinstate 1")
    assert "sheet 60 is in the notebook by now" in day.refused("reinstate 2")


def test_another_sheet_of_a_known_number_comes_back(day: Day):
    day.asked("expose 41 --new --planned '4 s'")
    day.asked("undo")
    day.asked("reinstate")
    assert [one["sheet"] for one in day.json("sheets")] == [41, 41]


def accepted(day: Day, folder: Path) -> Path:
    """A light-setups file into which a reference was accepted."""
    file = folder / "setups.toml"
    file.write_text(examples.text(examples.SETUPS), encoding="utf-8")
    planned = plan_references(file, ("second",), "7.5 s at 620 mm f/11", reading_id=1)
    with notebook(day.path, writing=True) as connection, act(connection, "read", 1) as act_id:
        connection.execute("INSERT INTO readings (act_id, kind, result) VALUES (?, 'strip', '{}')", (act_id,))
    accept_dose(day.path, planned, 2)
    return file


def test_a_reference_is_written_into_its_file_again(day: Day, tmp_path: Path):
    file = accepted(day, tmp_path)
    after = file.read_text(encoding="utf-8")
    day.asked("undo")
    assert file.read_text(encoding="utf-8") == examples.text(examples.SETUPS)
    said = day.asked("reinstate")
    assert "setup 'second': reference 7.5 s at 620 mm f/11 again" in said
    assert file.read_text(encoding="utf-8") == after


def test_a_file_that_says_something_else_by_now_is_left(day: Day, tmp_path: Path):
    file = accepted(day, tmp_path)
    day.asked("undo")
    other = file.read_text(encoding="utf-8").replace("6.0 s at 620 mm f/11", "5.0 s at 620 mm f/11")
    file.write_text(other, encoding="utf-8")
    assert "left as it is" in day.asked("reinstate")
    assert file.read_text(encoding="utf-8") == other


@pytest.mark.parametrize("command", ["undo", "reinstate"])
def test_no_notebook_is_made_for_it(day: Day, tmp_path: Path, command: str):
    other = tmp_path / "other.sqlite"
    assert "no notebook there yet" in day.refused(f"{command} --notebook {other}")
    assert not other.exists()
