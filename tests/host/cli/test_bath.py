"""The commands of baths, as they are typed."""

import json
from pathlib import Path

import pytest
from tests.host.baths.darkroom import EXAMPLES, Darkroom, compiled
from tests.host.typed import asked, refused

from footlight.cli.main import group
from footlight.notebook.book import notebook

PRINT = EXAMPLES / "reversal-print.toml"
NOW = 1_772_395_200  # 2026-03-01 20:00:00 UTC
FOUR = 'bath mixed developer bleach clear fixer --volume "1 l"'


@pytest.fixture(autouse=True)
def book(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    path = tmp_path / "notebook.sqlite"
    monkeypatch.setenv("FOOTLIGHT_NOTEBOOK", str(path))
    monkeypatch.setenv("TZ", "UTC")
    monkeypatch.setattr("time.time", lambda: float(NOW))
    monkeypatch.chdir(tmp_path)
    return path


def told(line: str) -> str:
    return asked(group, line)


def listed() -> dict[str, dict]:
    return {bath["name"]: bath for bath in json.loads(told("bath list --json"))["baths"]}


def carry_out(book: Path, sheets: int, hours_ago: float = 1.0) -> None:
    with notebook(book, writing=True) as connection:
        room = Darkroom(connection)
        one = room.know(compiled())
        for sheet in range(1, sheets + 1):
            room.carry_out(one, sheet, round(NOW - hours_ago * 3600) + sheet)


def test_mixed_listed_and_taken_back():
    assert told(f'{FOUR} --at "2 h ago"').splitlines() == [
        "developer: 1000 mL; mixed 2026-03-01 18:00",
        "bleach: 1000 mL; mixed 2026-03-01 18:00",
        "clear: 1000 mL, clearing; mixed 2026-03-01 18:00",
        "fixer: 1000 mL; mixed 2026-03-01 18:00",
    ]
    before = listed()
    assert before["bleach"]["age_h"] == 2.0 and before["bleach"]["state"] == "watch"
    told('bath mixed bleach --from "35 % stock"')
    assert listed()["bleach"]["age_h"] == 0.0
    assert told("undo") == "taken back: mixed bleach (1000 mL)\n"
    assert listed() == before


def test_what_is_not_said_is_as_the_last_time():
    told('bath mixed bleach --volume "700 ml" --formula peroxide-bleach --from "35 % stock, opened May"')
    assert told("bath mixed bleach").startswith("bleach: 700 mL, peroxide bleach, 35 % stock, opened May;")
    # Another formula: what it was made from is not known then.
    assert (
        told("bath mixed bleach --formula fixer --kind other")
        == "bleach: 700 mL, other, fixer; mixed 2026-03-01 20:00\n"
    )


def test_a_bath_written_late_counts_until_the_next_and_says_so():
    told('bath mixed bleach --volume "1 l" --at "1 h ago"')
    late = told('bath mixed bleach --at "3 h ago"')
    assert "! bleach: one that was mixed later is in use; this one counts until then." in late
    assert listed()["bleach"]["age_h"] == 1.0
    assert json.loads(told("bath show bleach --before 1 --json"))["age_h"] == 2.0


def test_what_is_not_said_is_as_the_sequence_that_was_sent_says(book: Path):
    carry_out(book, 1)
    assert (
        told('bath mixed developer --volume "1 l"')
        == "developer: 1000 mL, first developer; mixed 2026-03-01 20:00\n"
    )


def test_a_bath_of_formulas_is_kept_as_it_was_weighed():
    shown = told('mix bath peroxide-bleach "1 L" --stock "35 % w/w" --keep bleach')
    made = "20.0 g citric acid monohydrate, 154 mL hydrogen peroxide 35 % w/w"
    assert f"kept: bleach: 1000 mL, peroxide bleach, {made}; mixed 2026-03-01 20:00" in shown
    assert listed()["bleach"]["made_from"] == made
    assert told("undo") == "taken back: mixed bleach (1000 mL)\n"


def test_found_shown_and_in_the_chart(book: Path):
    told(f'{FOUR} --at "2 h ago"')
    carry_out(book, 3)
    told('bath found bleach --clearing "90 s" --at "90 min ago"')
    told('bath found bleach --clearing "150 s" --temperature "20 °C" a little brown')
    shown = told("bath show bleach").splitlines()
    assert shown[:2] == ["bleach: 1000 mL; mixed 2026-03-01 18:00", "state: watch"]
    assert "  3 sheet-visits of 8x10, of 4 to 15: good" in shown
    assert "  takes 1.7 × its fresh time: watch" in shown
    assert "2026-03-01 20:00  a little brown" in shown
    assert [visit["sheet"] for visit in json.loads(told("bath show bleach --json"))["visits"]] == [1, 2, 3]
    chart = json.loads(told("bath chart bleach --json"))
    times = [(one["value"], one["per_l"]) for one in chart["points"] if one["what"] == "time"]
    assert times == [(90.0, 0.0), (150.0, 3.0)]
    assert told("search brown").splitlines()


def test_bottled_poured_emptied():
    told(f'{FOUR} --at "5 h ago"')
    assert "in a sealed bottle" in told('bath bottled bleach --at "4 h ago"')
    assert told('bath bottled --all --at "3 h ago"').count("bottled") == 3
    assert told('bath poured fixer --at "1 h ago"') == "fixer: poured 2026-03-01 19:00\n"
    ages = {name: bath["age_h"] for name, bath in listed().items()}
    assert ages == {"developer": 2.0, "bleach": 1.0, "clear": 2.0, "fixer": 3.0}
    told("bath emptied --all")
    assert told("bath list") == "No bath is in use.\n"
    told("undo")
    assert len(listed()) == 4


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("bath mixed", "which bath?"),
        ("bath mixed bleach", "how much? It is the first of that name"),
        ('bath mixed bleach --volume "1 ml"', "allowed is 20 mL to 500 L"),
        ('bath mixed bleach --volume "1 l" --at 23:59', "in the future"),
        ('bath mixed bleach --volume "1 l" --at "2026-02-30 12:00"', "February 2026 has 28 days"),
        ('bath mixed bleach Bleach --volume "1 l"', "named twice"),
        ('bath mixed soup --volume "1 l"', "what sort of bath is it?"),
        ('bath mixed "blöche" --volume "1 l" --kind bleach', "is no tray's name"),
        ("bath found soup nice", "there is developer, bleach, clear, fixer"),
        ("bath found bleach", "nothing to write"),
        ('bath found bleach --temperature "90 °C"', "allowed is 5 to 60 °C"),
        ('bath found bleach --clearing "2 h"', "is out of range"),
        ('bath found bleach nice --at "3 h ago"', "before it was mixed"),
        ("bath emptied", "name the baths, or write --all"),
        ("bath emptied bleach --all", "not both"),
        ("bath poured fixer", "it is in its tray already"),
        ("bath show soup", "none of that name in the notebook"),
        ("bath show bleach --before 1", "1 of that name in the notebook"),
        ("bath chart bleach bleach.jpg", "a picture's name ends in"),
        ("bath chart bleach none/bleach.png", "there is no such folder"),
    ],
)
def test_one_clear_line(line: str, said: str):
    if "mixed" not in line:
        told(f'{FOUR} --at "2 h ago"')
    assert said in refused(group, line)


def test_the_plan_says_mix_fresh_and_nothing_without_a_notebook(book: Path):
    bare = told(f"plan {PRINT}")
    assert "notebook" not in bare
    told(f'{FOUR} --at "30 min ago"')
    assert told(f"plan {PRINT}").startswith(bare)
    assert "Mix fresh" not in told(f"plan {PRINT}")
    told('bath mixed bleach --volume "50 ml"')
    fresh = "Mix fresh bleach before this run: 1 of 0.75 sheets of 8x10 by then"
    assert fresh in " ".join(told(f"plan {PRINT}").split())
    found = {
        one["tray"]: one["fresh_before_sheet"] for one in json.loads(told(f"plan {PRINT} --json"))["baths"]
    }
    assert found == {"developer": None, "bleach": 1, "clear": None, "fixer": None}
    book.write_text("no notebook at all", encoding="utf-8")
    assert told(f"plan {PRINT}") == bare


def test_unknown_baths_are_said_once_in_a_plan():
    told('bath mixed toner --volume "1 l" --kind other')
    assert " ".join(told(f"plan {PRINT}").split()).count("The notebook has no bath for") == 1
