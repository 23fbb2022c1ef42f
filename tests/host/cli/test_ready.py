"""The check list: one screen, from the sequence and the notebook; fog tests that are kept."""

import json
from pathlib import Path

import pytest
from click.testing import CliRunner
from tests.host.baths.darkroom import EXAMPLES, Darkroom, compiled
from tests.host.typed import asked

from footlight.cli.main import group
from footlight.notebook.book import notebook

PRINT, FLASH = EXAMPLES / "reversal-print.toml", EXAMPLES / "pre-flash.toml"
NOW = 1_772_395_200  # 2026-03-01 20:00:00 UTC


@pytest.fixture(autouse=True)
def book(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    path = tmp_path / "notebook.sqlite"
    monkeypatch.setenv("FOOTLIGHT_NOTEBOOK", str(path))
    monkeypatch.setattr("time.time", lambda: float(NOW))
    return path


def told(line: str) -> str:
    return asked(group, line)


def line_of(begins: str, file: Path = PRINT) -> str:
    return next(line for line in told(f"ready {file}").splitlines() if line[4:].startswith(begins))


def flashed(book: Path, hours_ago: float) -> None:
    with notebook(book, writing=True) as connection:
        room = Darkroom(connection)
        room.carry_out(room.know(compiled(FLASH)), 1, round(NOW - hours_ago * 3600))
        room.carry_out(room.know(compiled()), 1, round(NOW - hours_ago * 3600) + 1800)


@pytest.mark.parametrize("is_known", [False, True])
def test_one_screen_for_the_shipped_print(book: Path, is_known: bool):
    if is_known:
        told('bath mixed developer bleach clear fixer --volume "1 l"')
        flashed(book, 3)
    lines = told(f"ready {PRINT}").splitlines()
    assert len(lines) <= 24 and max(map(len, lines)) <= 80
    assert all(line[:3] in ("[ ]", "[!]") for line in lines[1:])


def test_everything_that_is_asked_of_it(book: Path):
    text = told(f"ready {PRINT}")
    for part in (
        "never tongs A in 3; B in 1 5 7; C in 3; D in 3",  # acid peroxide against all the others
        "face shield or goggles AND gloves (nitrile, long cuffs): bleach",
        "air from you over the trays and out; bleach covered loosely",
        "wall switch and tap found blind",
        "enlarger: 80 mm lens at f/11, 800 mm lens pupil to sheet: 10.0 s",
        "filled in 2, 4 and 6, anew for each sheet; water in 8",
        "holder tapped",
    ):
        assert part in text
    assert text.count("mixed? The notebook has none in use") == 4


def test_baths_as_the_notebook_knows_them():
    told('bath mixed developer bleach clear --volume "1 l" --at "1 h ago"')
    told('bath mixed fixer --volume "20 ml"')
    assert line_of("developer") == "[ ] developer  in 1, 1.0 h old, enough for 7 to 25 sheets"
    assert line_of("fixer") == "[!] fixer      in 7, MIX FRESH now: 1 of 0.8 sheets of 8x10 by then"
    told("bath bottled clear")
    assert line_of("clear").endswith("in its bottle: pour it")


def test_red_light_against_the_fog_tests():
    # Shipped print at most: 2:00 and 0:30 to the bleach; then 4:00, 1:00, 0:45, 0:45, 10 s to settle, 10.05 s
    # of light, 1:30, 0:20 and 1:00 to white light = 9:40.
    assert line_of("red light") == "[!] red light 2:30 to the bleach (not tested), 9:40 after it (not tested)"
    told('light fog "0 s, 2.10 D" "4 min, 2.09 D" "8 min, 2.04 D" --keep before')
    told('light fog "0 s, 0.04 D" "7 min, 0.04 D" "20 min, 0.09 D" --keep after-bleach')
    assert (
        line_of("red light")
        == "[!] red light 2:30 to the bleach (safe 4:00), 9:40 after it (TOO LONG, safe 7:00)"
    )
    told('light fog "0 s, 0.04 D" "20 min, 0.04 D" --keep after-bleach')
    assert line_of("red light") == "[ ] red light 2:30 to the bleach (safe 4:00), 9:40 after it (safe 20:00)"
    assert told("undo") == "taken back: fog test after-bleach: safe for 1200 s\n"
    assert "TOO LONG" in line_of("red light")


def test_pre_flashed_sheets_that_wait(book: Path):
    flashed(book, 3)
    assert line_of("7 sheets") == "[ ] 7 sheets, 2 to 8, pre-flashed 3.0 h ago: boxed since, little red light"


def test_a_dry_sequence_asks_for_little():
    assert len(told(f"ready {FLASH}").splitlines()) == 5


def test_tongs_of_baths_that_must_not_meet(tmp_path: Path):
    for name in ("reversal-print.toml", "light-setups.toml"):
        text = (EXAMPLES / name).read_text("utf-8").replace('tongs = "B"', 'tongs = "A"')
        (tmp_path / name).write_text(text, encoding="utf-8")
    shown = told(f"ready {tmp_path / 'reversal-print.toml'}")
    assert "[!] tongs A carry what must not meet: 1, 2, 3 and 4 need tongs of their own" in shown


def test_as_json():
    found = json.loads(told(f"ready {PRINT} --json"))
    assert found["title"] == "PRINT" and found["wrong"] == 5
    assert [one["about"] for one in found["checks"] if one["wrong"]] == ["bath"] * 4 + ["safelight"]


def test_ticked_through(book: Path):
    done = CliRunner().invoke(group, ["ready", str(FLASH), "--tick"], input="\n" * 4)
    assert done.output.endswith("All ticked.\n")
    done = CliRunner().invoke(group, ["ready", str(FLASH), "--tick"], input="\nno\n\n\n")
    assert done.output.splitlines()[-2:] == [
        "Still open:",
        "[ ] lamp lit once without paper: even, sharp-edged, and out when told",
    ]
    assert not book.exists()
