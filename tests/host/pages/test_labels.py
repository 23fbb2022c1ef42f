"""Labels: place, strength, date, signal word and hazards; eight to a page, nothing lost at an edge."""

import time
from pathlib import Path

import pytest
from tests.host.pages.browser import Printout, is_grey, needs_browser, stands_free
from tests.host.repeating.prints import EVENING, asked

from footlight import examples, sequence
from footlight.notebook.book import notebook
from footlight.notebook.stock import baths
from footlight.report.pages.labels import Label, printed
from footlight.report.pages.labels_of import labels_of


def shipped(dated: dict[str, str] | None = None) -> dict[str, Label]:
    loaded = sequence.load(examples.path("reversal-print"))
    return {label.name: label for label in labels_of(loaded, dated or {})}


def test_what_a_label_says():
    found = shipped({"bleach": "2026-03-01 17:00"})
    bleach = found["bleach"]
    assert (bleach.place, bleach.tongs, bleach.life) == ("3", "B", "lasts 4 sheets")
    assert bleach.strength == "citric acid, monohydrate 20 g/L, hydrogen peroxide 6 % w/w"
    # 6 % w/w lies in 5 to 8 %: Eye Irrit. 2, H319, signal word 'Warning'.
    assert bleach.signal == "Warning" and "H319 Causes serious eye irritation." in bleach.cautions
    assert any("NEVER in a sealed bottle" in line for line in bleach.cautions)
    assert found["water"].is_water and found["water"].life == "fresh for each sheet"
    html = printed(found.values(), "x")
    assert "mixed 2026-03-01 17:00" in html and html.count("mixed <i></i>") == 3
    assert html.count("no label by law") == 4


def test_what_is_not_known_says_so(tmp_path: Path):
    path = tmp_path / "odd.toml"
    path.write_text(
        'title = "ODD"\nname = "odd"\n[trays.a]\nbath = "<b>brew</b>"\n'
        '[[step]]\nkind = "bath"\nname = "brew"\ntray = "a"\ntime = "1:00"\n'
    )
    labels = labels_of(sequence.load(path), {})
    assert "Make-up not known here: read its label." in labels[0].cautions
    assert "<b>brew" not in printed(labels, "<b>odd")


def test_dates_come_from_the_notebook(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setenv("FOOTLIGHT_NOTEBOOK", str(tmp_path / "notebook.sqlite"))
    monkeypatch.setenv("TZ", "UTC")
    monkeypatch.setattr(time, "time", lambda: EVENING + 60.0)
    monkeypatch.chdir(tmp_path)
    file = examples.path("reversal-print")
    assert "8 labels, 0 with the date" in asked("page", "labels", file)
    with notebook(tmp_path / "notebook.sqlite", writing=True) as book:
        mixed = baths.Mixed("bleach", "peroxide-bleach", "", "bleach", 700, EVENING - 3600)
        baths.mix(book, [mixed], EVENING)
    assert "8 labels, 1 with the date" in asked("page", "labels", file, "--replace")
    assert "mixed 2026-03-01 17:00" in (tmp_path / "reversal-print-labels.html").read_text()
    assert "0 with the date" in asked("page", "labels", file, "--replace", "--blank")


@needs_browser
@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_printed_by_a_browser(paper: str, tmp_path: Path):
    page = Printout(printed(shipped().values(), "reversal print", paper), tmp_path)
    pixels = page.pixels()
    assert page.sheets == 1 and is_grey(pixels) and stands_free(pixels)


@needs_browser
def test_a_ninth_label_takes_a_second_sheet(tmp_path: Path):
    labels = [*shipped().values(), *shipped().values()][:9]
    assert Printout(printed(labels, "many", "a4"), tmp_path).sheets == 2
