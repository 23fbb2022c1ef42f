"""Charts: the points are where they belong, the files are pictures, and the same data gives the same file."""

import json
import math
from pathlib import Path

import pytest
from tests.host.baths.darkroom import EXAMPLES, HOUR, Darkroom, compiled
from tests.host.typed import asked, refused

from footlight.cli.main import group
from footlight.notebook import acts
from footlight.notebook.book import notebook
from footlight.notebook.sheets import by_number, readings
from footlight.notebook.stock import baths, light_setups
from footlight.notebook.stock.baths import Mixed
from footlight.notebook.stock.light_setups import Change

NOW = 1_772_395_200  # 2026-03-01 20:00:00 UTC
DAY = 24 * HOUR


@pytest.fixture
def book(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    path = tmp_path / "notebook.sqlite"
    monkeypatch.setenv("FOOTLIGHT_NOTEBOOK", str(path))
    monkeypatch.setattr("time.time", lambda: float(NOW))
    return path


@pytest.fixture
def two_baths(book: Path) -> Path:
    """Half a litre of bleach on two evenings, two prints each, read."""
    with notebook(book, writing=True) as connection:
        room = Darkroom(connection)
        one = room.know(compiled())
        for evening in (0, 1):
            start_s = NOW - (2 - evening) * DAY
            baths.mix(connection, [Mixed("bleach", "", "", "bleach", 500.0, start_s)], NOW)
            for place in (1, 2):
                sheet = 2 * evening + place
                room.carry_out(one, sheet, start_s + place * HOUR, judged_ms=90_000 + 10_000 * place)
                found = readings.Entry(
                    "print",
                    "{}",
                    by_number.find(connection, sheet)["id"],
                    d_max=2.1,
                    veil_d=0.01 * sheet,
                    mottle_d=0.008,
                )
                readings.keep(connection, found, f"print {sheet}", b"", NOW)
    return book


def test_the_points_of_a_bath(two_baths: Path):
    points = json.loads(asked(group, "bath chart bleach --json"))["points"]
    veils = [
        (one["sheet"], one["value"], one["per_l"], one["baths_before"])
        for one in points
        if one["what"] == "veil"
    ]
    # 8x10 in half a litre: 2 sheets a litre each.
    assert veils == [(1, 0.01, 2, 1), (2, 0.02, 4, 1), (3, 0.03, 2, 0), (4, 0.04, 4, 0)]
    times = [
        (one["value"], one["per_l"]) for one in points if one["what"] == "time" and not one["baths_before"]
    ]
    assert times == [(100.0, 2), (110.0, 4)]
    ages = [one["age_h"] for one in points if one["what"] == "mottle"]
    # Into the bleach 2:30 after the run began.
    assert ages == pytest.approx([1 + 150 / 3600, 2 + 150 / 3600] * 2)


def test_the_chart_of_a_bath_is_a_picture(two_baths: Path, tmp_path: Path):
    for name in ("one.svg", "two.svg"):
        assert asked(group, f"bath chart bleach {tmp_path / name}") == f"{tmp_path / name}: 16 figures\n"
    assert (tmp_path / "one.svg").read_bytes() == (tmp_path / "two.svg").read_bytes()
    assert "sheets of 8x10 a litre" in (tmp_path / "one.svg").read_text("utf-8")


def test_a_bath_without_figures_is_drawn_all_the_same(book: Path, tmp_path: Path):
    asked(group, 'bath mixed toner --volume "1 l" --kind other')
    asked(group, f"bath chart toner {tmp_path / 'toner.svg'}")
    assert (tmp_path / "toner.svg").read_text("utf-8").count("nothing known yet") >= 8
    assert asked(group, "bath chart toner").startswith("Nothing known yet")


@pytest.fixture
def months(book: Path, tmp_path: Path) -> Path:
    """6.0 s at 620 mm found good; a month later 12.0 s; in between once at 700 mm."""
    with notebook(book, writing=True) as connection:
        room = Darkroom(connection)
        for sheet, (height, reference) in enumerate(
            (("800", "6.0"), ("700", "6.0"), ("800", "12.0")), start=1
        ):
            folder = tmp_path / f"{sheet}"
            folder.mkdir()
            for name in ("reversal-print.toml", "light-setups.toml"):
                text = (
                    (EXAMPLES / name)
                    .read_text("utf-8")
                    .replace('height = "800 mm"', f'height = "{height} mm"')
                )
                text = text.replace("6.0 s at 620 mm", f"{reference} s at 620 mm")
                (folder / name).write_text(text, encoding="utf-8")
            one = room.know(compiled(folder / "reversal-print.toml"))
            room.carry_out(one, sheet, NOW - (4 - sheet) * 30 * DAY)
        with acts.act(connection, "accepted", NOW - 31 * DAY) as act_id:
            changed = Change("light-setups.toml", "second", "6.0 s at 620 mm f/11", "12.0 s at 620 mm f/11")
            light_setups.note(connection, act_id, [changed])
    return book


def test_lights_are_carried_to_the_first_reference(months: Path):
    found = json.loads(asked(group, "drift second --json"))
    assert found["base"] == "6.0 s at 620 mm f/11"
    # Twice the light is one stop; height and dead time are taken out again (to the millisecond of the plan).
    for one, stops in zip(found["lights"], (0.0, 0.0, 1.0), strict=True):
        assert one["planned_stops"] == pytest.approx(stops, abs=0.001)
        assert one["least_stops"] == one["most_stops"] == pytest.approx(stops, abs=0.001)
    assert [(one["stops"], one["unix_s"]) for one in found["references"]] == [
        (0.0, None),
        (pytest.approx(math.log2(2)), NOW - 31 * DAY),
    ]


def test_the_drift_is_a_picture(months: Path, tmp_path: Path):
    asked(group, f"drift second {tmp_path / 'drift.png'}")
    assert (tmp_path / "drift.png").read_bytes().startswith(b"\x89PNG")
    asked(group, f"drift second {tmp_path / 'drift.svg'}")
    text = (tmp_path / "drift.svg").read_text("utf-8")
    assert "stops from the first reference" in text and "reference found good" in text


def test_a_setup_that_nobody_knows(months: Path):
    assert "light setup 'third': the notebook has no light of it; there is second" in refused(
        group, "drift third"
    )
    assert "a picture's name ends in" in refused(group, "drift second drift.bmp")
