"""A sheet in the camera: planned and given, before and after its journal comes home."""

import pytest
from tests.host.cli.day import Day, day, dry
from tests.host.notebook.journals import EVENING

from footlight.notebook.book import notebook
from footlight.notebook.journal import programs
from footlight.notebook.sheets import by_number, wet

__all__ = ["day"]


def test_planned_is_reckoned_and_given_is_added(day: Day):
    day.asked("paper add A baryta --size 8x10 --sheets 25 --speed 4")
    entered = day.json("expose 41 --meter 'EV 12' --stop f/22 --holder 3a --subject 'two chairs'")
    # EV 12 at ISO 100, EI 4, f/22 exactly 22.627: 3.125 s (ISO 2720 equations), and from 1 s on the paper's
    # assumed departure, t^(1/0.9): 3.547 s (Schwarzschild's law).
    assert entered["planned_s"] == pytest.approx(3.125 ** (1 / 0.9), abs=0.002)
    assert entered["exposure_index"] == 4 and entered["paper"] == "A"
    entered = day.json("expose 41 --given '4 s'")
    assert (entered["given_s"], entered["holder"], entered["stop"]) == (4, "3a", "f/22")
    text = day.asked("sheet 41")
    assert "EV 12, EI 4, f/22: 3.1" in text and "two chairs" in text
    # 4 s against 3.547 s: log2 of 1.1277.
    assert "given 4.0 s: +0.17 stop" in text


def test_true_stops_of_a_lens_and_its_draw(day: Day):
    day.asked("lens add 'portrait lens' --focal '150 mm' --true 'f/11 = 11'")
    entered = day.json(
        "expose 41 --meter 'EV 12' --stop f/11 --ei 100 --lens 'portrait lens' --draw '300 mm'"
    )
    # f = 150, v = 300: the literal 11 becomes 22 (a factor of 4): 22² / 2^12 s; optics texts.
    assert entered["planned_s"] == pytest.approx(22**2 / 2**12, rel=1e-3)
    assert "'portrait lens': f/11 is really f/11" in entered["arithmetic"]


def test_light_and_filter_count_where_they_say_by_how_much(day: Day):
    plain = day.json("expose 41 --meter 'EV 12' --stop f/22 --ei 50")["planned_s"]
    words = day.json("expose 41 --meter 'EV 12' --light 'open shade' --filter yellow --correct")
    stated = day.json("expose 41 --meter 'EV 12' --filter 'yellow, 1 stop' --correct")
    assert words["planned_s"] == plain
    assert stated["planned_s"] == pytest.approx(2 * plain)


def test_a_sheet_whose_journal_is_not_home(day: Day):
    day.asked("expose 50 --planned '4 s' --subject 'north window'")
    assert "its journal not home yet" in day.asked("sheet 50")
    assert [one["sheet"] for one in day.json("sheets")] == [50, 41]
    # It is of no controller yet, and one alone need not be told from others.
    assert "controller" not in day.asked("sheets")
    day.home(*dry(49, 51, run=2))
    story = day.json("sheet 50")
    assert story["controller"] == "box-1" and len(story["runs"]) == 1
    assert story["camera"]["subject"] == "north window"
    assert sorted(one["sheet"] for one in day.json("sheets")) == [41, 49, 50, 51]
    # The journal knows it now: taking back what was written leaves it there.
    day.asked("undo")
    assert day.json("sheet 50")["camera"] is None


def test_a_sheet_that_was_taken_back_is_not_there(day: Day):
    day.asked("expose 50 --planned '4 s'")
    day.asked("undo")
    assert "sheet 50: not in the notebook" in day.refused("sheet 50")
    assert [one["sheet"] for one in day.json("sheets")] == [41]
    day.asked("expose 50 --planned '5 s'")
    day.home(*dry(50, 50, run=2))
    assert day.json("sheet 50")["camera"]["planned_s"] == 5


def test_the_sheet_that_stands_is_the_one_that_comes_home(day: Day):
    day.asked("expose 50 --planned '4 s'")
    day.asked("expose 50 --planned '5 s' --new")
    day.asked("undo")
    day.home(*dry(50, 50, run=2))
    story = day.json("sheet 50")
    assert (story["camera"]["planned_s"], len(story["runs"])) == (4, 1)


def test_the_first_sheet_of_a_new_notebook(tmp_path, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setenv("FOOTLIGHT_NOTEBOOK", str(tmp_path / "new" / "notebook.sqlite"))
    new = Day(tmp_path / "new" / "notebook.sqlite")
    new.asked("expose 1 --planned '4 s'")
    new.home(*dry(1, 2))
    assert new.json("sheet 1")["camera"]["planned_s"] == 4


def test_a_number_that_is_there_from_before(day: Day):
    # The controller was formatted and counts from 1 again: this 41 is another sheet.
    day.asked("expose 41 --planned '4 s' --new")
    assert day.json("sheet 41")["runs"] == []
    day.home(*dry(41, 41), epoch="e2")
    story = day.json("sheet 41")
    assert (story["epoch"], story["camera"]["planned_s"], len(story["runs"])) == ("e2", 4, 1)
    assert len(day.json("sheets")) == 2


def test_several_controllers(day: Day):
    day.home(*dry(1, 2), controller="box-2")
    assert "several controllers are known (box-1, box-2)" in day.refused("expose 60 --planned '4 s'")
    assert "no such controller" in day.refused("expose 60 --planned '4 s' --controller box-3")
    for _ in range(2):
        day.asked("expose 60 --planned '4 s' --controller box-2")
        day.asked("undo")
    day.asked("expose 60 --planned '4 s' --controller box-2")
    assert day.json("sheet 60 --controller box-2")["runs"] == []
    day.home(*dry(60, 60, run=2))
    day.home(*dry(60, 60, run=2), controller="box-2")
    assert day.json("sheet 60 --controller box-2")["camera"]["planned_s"] == 4
    assert day.json("sheet 60 --controller box-1")["camera"] is None


def test_a_controller_that_was_formatted_before_its_journal_came_home(day: Day):
    day.home(*dry(1, 2), controller="box-2")
    day.asked("expose 60 --planned '4 s' --controller box-2")
    day.home(*dry(60, 60), controller="box-2", epoch="e2")
    story = day.json("sheet 60")
    assert (story["epoch"], story["camera"]["planned_s"], len(story["runs"])) == ("e2", 4, 1)


def test_again_leaves_out_what_belongs_to_one_sheet(day: Day):
    day.home(*dry(42, 44, run=2))
    day.asked("expose 41 --planned '4 s' --given '4.5 s' --holder 3a --stop f/22 --light 'north window'")
    again = day.json("expose 42 --again --holder 3b")
    assert (again["holder"], again["given_s"], again["planned_s"]) == ("3b", None, 4)
    assert again["light"] == "north window"
    day.asked("expose 43 --planned '8 s'")
    assert day.json("expose 44 --as 41")["planned_s"] == 4


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("expose 41", "nothing to write"),
        ("expose 41 --meter 'EV 12' --ei 4", "--stop is missing"),
        ("expose 41 --meter 'EV 12' --stop f/22", "--ei is missing"),
        ("expose 41 --meter 'EV 12' --planned '4 s'", "not both"),
        ("expose 41 --planned 4", "has no unit"),
        ("expose 41 --given '0 s'", "must be more than zero"),
        ("expose 41 --planned '4 s' --at 2026-02-31", "February 2026 has 28 days"),
        ("expose 41 --planned '4 s' --at 2999-01-01", "is in the future"),
        ("expose 41 --again", "no camera exposure was written down yet"),
        ("expose 41 --as 41", "nothing was written of it in the camera"),
        ("expose 41 --meter 'EV 12' --stop f/22 --ei 4 --lens none", "is not among your lenses (none yet)"),
        ("expose 41 --planned '4 s' --paper A", "no such batch"),
        ("lens add x", "--focal is missing"),
        ("lens add x --focal '150 mm' --true f/11", "write the mark and what was measured"),
        ("lens add x --focal '150 mm' --true 'f/11 = 11, f/11 = 12'", "is written twice"),
        ("lens card x", "there is no such lens"),
    ],
)
def test_what_cannot_be(day: Day, line: str, said: str):
    assert said in day.refused(line)


def test_lenses(day: Day, tmp_path):
    day.asked("lens add old --focal '200 mm' --widest f/5.6 --opening 'f/8 = 25 mm'")
    day.asked("lens add old --focal '210 mm' --opening 'f/8 = 25 mm'")
    (lens,) = day.json("lens list")
    # 210 mm over 25 mm.
    assert (lens["focal_mm"], lens["true_stops"]) == (210, "f/8 = 8.4")
    (row,) = [row for row in day.json("lens card old --draw '210 mm'")["stops"] if row["mark"] == "f/8"]
    assert row["measured"] and row["true_f_numbers"] == [pytest.approx(8.4, abs=0.01)]
    day.asked("undo")
    assert day.json("lens list")[0]["focal_mm"] == 200
    file = tmp_path / "camera.toml"
    file.write_text('[lens."wide"]\nfocal = "90 mm"\nopenings = { "f/8" = "11.25 mm" }\n', encoding="utf-8")
    assert day.json(f"lens add wide --file {file}")["true_stops"] == "f/8 = 8"


def test_no_camera_exposes_a_sheet_after_its_first_bath(day: Day):
    said = day.refused("expose 41 --planned '4 s' --at now")
    assert said.startswith("--at: sheet 41 went into its first bath on 20") and "add --new" in said
    day.asked("expose 41 --planned '4 s' --at '2024-01-31 15:20'")
    day.asked("expose 41 --new --planned '4 s' --at now")


FLASH = "cd" * 32
FLASH_PROGRAM = (
    '{"v":1,"title":"FLASH","name":"pre-flash","steps":[{"kind":"light","name":"pre-flash","time_ms":2000},'
    '{"kind":"pause","name":"box the sheet"}]}'
)


@pytest.mark.parametrize("is_known", [True, False], ids=["sent from here", "sent from elsewhere"])
def test_a_pre_flash_with_a_pause_in_it_leaves_a_sheet_dry(day: Day, is_known: bool):
    boot, dated, _, *lights, end = dry(50, 51, run=2)
    pauses = [(15_000, "step", 2, 2, sheet, 14_000, 1000, "pedal") for sheet in (50, 51)]
    armed = (10_000, "arm", 2, 1, FLASH[:16], "FLASH", 50, 2)
    day.home(boot, dated, armed, *lights, *pauses, end)
    with notebook(day.path, writing=True) as connection:
        if is_known:
            flash = programs.Sequence(FLASH, "FLASH", "pre-flash", FLASH_PROGRAM, "", "")
            programs.store(connection, flash, EVENING)
        found = [
            wet.first_wet_run(connection, by_number.find(connection, number)["id"]) for number in (50, 41)
        ]
    assert found[0] is None and found[1] is not None
    day.asked("expose 50 --planned '4 s' --at now")


def test_a_second_exposure_on_one_sheet_is_refused(day: Day):
    day.asked("expose 40 --planned '4 s' --stop f/22")
    day.asked("expose 40 --given '4.2 s'")  # completes the first
    for more in ("--planned '2 s'", "--given '2 s'", "--meter 'EV 12'"):
        said = day.refused(f"expose 40 {more}")
        assert "was in the camera already" in said and "--correct" in said and "--new" in said
    assert day.json("expose 40 --planned '2 s' --correct")["planned_s"] == 2
    assert day.json("expose 40 --subject 'north window'")["subject"] == "north window"
