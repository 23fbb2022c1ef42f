"""`footlight tones`: what it answers, and one line for whatever the two files should not be."""

import json
import re
from pathlib import Path

import pytest
from tests.host.typed import asked, refused

from footlight.cli.tones import command

PAGE = Path(__file__).parents[3] / "docs" / "tones.md"


@pytest.fixture
def files(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The files of the page."""
    for name, text in re.findall(r"```toml\n# (\S+)\n(.*?)```", PAGE.read_text(encoding="utf-8"), re.DOTALL):
        (tmp_path / name).write_text(text, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def answer(paper: str = "pearl.toml", scene: str = "garden.toml") -> dict:
    return json.loads(asked(command, [paper, scene, "--json"]))


def change(file: Path, old: str, new: str) -> None:
    text = file.read_text(encoding="utf-8")
    assert old in text
    file.write_text(text.replace(old, new, 1), encoding="utf-8")


def test_a_place_of_a_step_has_the_density_of_the_step(files: Path):
    # Without flare, a place 2 stops below the reading is the step of -2 stops.
    change(files / "pearl.toml", 'flare = "1 %"', 'flare = "0.4 %"')
    change(files / "garden.toml", 'time = "2 s"', 'time = "2 s"\nmean = "EV 11.8"')
    bench = next(place for place in answer()["places"] if place["name"] == "garden bench")
    assert bench["density_d"] == pytest.approx(1.39, abs=0.02)
    assert bench["low_d"] < 1.39 < bench["high_d"] and bench["words"][0] == "dark with texture"


def test_half_the_index_is_a_stop_more_light(files: Path):
    change(files / "garden.toml", "index = 3", 'index = 3\nmean = "EV 12"')
    before = {place["name"]: place["density_d"] for place in answer()["places"]}
    change(files / "garden.toml", "EV 12", "EV 11")
    change(files / "garden.toml", "index = 3", "index = 1.5")
    change(files / "garden.toml", '"EV 9"', '"EV 8"')
    after = {place["name"]: place["density_d"] for place in answer()["places"]}
    assert after["gravel"] < before["gravel"] - 0.1
    assert after["garden bench"] == pytest.approx(before["garden bench"], abs=0.02)


def test_a_scene_that_no_sheet_holds(files: Path):
    said = asked(command, "pearl.toml alley.toml")
    assert "No sheet of this paper holds this scene" in said and "cellar door alone" in said
    assert answer(scene="alley.toml")["holds"] is False


def test_prints_move_what_is_said_and_a_spoilt_one_does_not(files: Path):
    taught = answer("pearl-later.toml")
    assert [each["is_taken_in"] for each in taught["prints"]] == [True, True, False]
    assert "weak" in taught["prints"][2]["question"]
    text = (files / "pearl-later.toml").read_text(encoding="utf-8")
    (files / "pearl-later.toml").write_text(text[: text.rindex("[[print]]")], encoding="utf-8")
    assert answer("pearl-later.toml")["places"] == taught["places"]
    assert answer()["places"] != taught["places"]


@pytest.mark.parametrize(
    ("file", "old", "new", "said"),
    [
        ("pearl.toml", '"2.01 D"', '"2.01"', "steps, row 1"),
        ("pearl.toml", "index = 3\n", "", "needs the sheet's index"),
        ("pearl.toml", '"1.97 D"', '"0.97 D"', "lighter with light"),
        ("pearl.toml", "p = 0.95", "p = 9.5", "p: '9.5' is out of range"),
        ("pearl.toml", "[camera]", "[camra]", "did you mean 'camera'"),
        ("pearl.toml", 'time = "2 s"\n', "", "time is missing"),
        ("pearl.toml", '["10 s", "1.45 D"]', '["10 s", "2.45 D"]', "2.45 D was not measured"),
        ("pearl.toml", '"5 s", "1.77 D"', '"5 s"', "must have two values"),
        ("garden.toml", '"EV 9"', '"9"', "garden bench: '9' is not a spot reading"),
        ("garden.toml", '"EV 9"', '"EV 99"', "out of range"),
        ("garden.toml", '"gravel" = "0.45 D"', '"gravle" = "0.45 D"', "did you mean 'gravel'"),
        ("garden.toml", "index = 3", "index = 0", "index: '0' is out of range"),
        ("garden.toml", "[places]", "[placs]", "placs"),
    ],
)
def test_one_line_for_a_bad_file(files: Path, file: str, old: str, new: str, said: str):
    change(files / file, old, new)
    line = refused(command, "pearl.toml garden.toml")
    assert said in line and line.startswith(file)


def test_a_flash_of_unknown_weight_is_not_guessed(files: Path):
    change(files / "pearl.toml", "[flash]\nalone", "[camera.x]\nalone")
    change(files / "pearl.toml", "[camera.x]\n", "#")
    change(files / "garden.toml", 'time = "2 s"', 'time = "2 s"\nflash = "2 s"')
    assert "its weight is not known" in refused(command, "pearl.toml garden.toml")
