"""Lens tables of the notebook, on paper."""

from pathlib import Path

import pytest
from tests.host.pages.browser import Printout, is_grey, needs_browser, stands_free
from tests.host.repeating.prints import asked, refused


@pytest.fixture(autouse=True)
def lenses(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("FOOTLIGHT_NOTEBOOK", str(tmp_path / "notebook.sqlite"))


def test_every_lens_with_what_was_measured(tmp_path: Path):
    asked("lens", "add", "portrait <lens>", "--focal", "210 mm", "--true", "f/32 = 29.4")
    asked("lens", "add", "long", "--focal", "300 mm")
    assert asked("page", "lens") == "lens-tables.html: 2 tables\n"
    html = Path("lens-tables.html").read_text()
    assert "portrait &lt;lens&gt;" in html and "<lens>" not in html
    # 210 mm / 29.4 = 7.14 mm; at twice its focal length of draw the f-number doubles: 58.8.
    assert "7.1*" in html and "f/58.8" in html
    asked("page", "lens", "long", "--draw", "450 mm", "--out", "long.html")
    # f/8 at one and a half times the focal length: f/12.
    assert "f/12" in Path("long.html").read_text()


def test_without_a_lens():
    assert "no notebook there yet" in refused("page", "lens")
    asked("paper", "add", "A", "any", "--size", "8x10", "--sheets", 1)
    assert "'footlight lens add' writes down the first" in refused("page", "lens")


@needs_browser
def test_printed_by_a_browser(tmp_path: Path):
    asked("lens", "add", "portrait lens", "--focal", "210 mm")
    asked("page", "lens")
    page = Printout(Path("lens-tables.html").read_text(), tmp_path)
    pixels = page.pixels()
    assert page.sheets == 1 and is_grey(pixels) and stands_free(pixels)
