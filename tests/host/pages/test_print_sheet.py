"""The report of a print that the bench made: everything that is known of it, nothing that is not."""

import io
import json
import os
from pathlib import Path

import pytest
from tests.host.pages.browser import Printout, is_grey, needs_browser, stands_free
from tests.host.repeating.prints import EVENING, asked, refused

from footlight.actions.report_print import report_print
from footlight.errors import InputError
from footlight.notebook.acts import act
from footlight.notebook.book import notebook
from footlight.notebook.sheets import readings
from footlight.notebook.stock import light_setups
from footlight.report.pages import curve
from footlight.report.pages.print_sheet import Picture, Report, printed
from footlight.views.print_report import report_of


def page(*words: object) -> str:
    asked("page", "sheet", *words, "--out", "page.html", "--replace")
    return Path("page.html").read_text(encoding="utf-8")


def photograph(path: Path) -> Path:
    image = pytest.importorskip("PIL.Image")
    image.linear_gradient("L").resize((400, 500)).save(path)
    return path


def test_planned_against_given(folder: Path):
    html = page(2)
    assert "<h1>Print 2</h1>" in html and "reversal print, 2026-03-01 18:12" in html
    assert "<td>first developer</td><td>2:00</td><td>2:11.2</td><td>+11.2 s</td>" in html
    # The light was stopped once: both parts, and the arithmetic below.
    assert "<td>9.99 s</td><td>9.99 s</td><td>0</td><td>whole; lamp on" in html
    assert "6.0 s at 620 mm f/11 → 10.0 s at 800 mm f/11" in html
    assert "data:image/svg+xml;base64," in html and "<figure" not in html
    assert "http://" not in html and "<script" not in html


def test_picture_paper_camera_baths_and_words(folder: Path):
    asked("attach", 2, photograph(folder / "p.png"))
    asked("write", 2, "--verdict", "good", "--defect", "mottle", "<b>upper left</b> & more")
    asked("paper", "add", "A", "resin coated", "--size", "8x10", "--sheets", 25)
    asked("expose", 2, "--given", "3.5 s", "--subject", "a <jug>", "--paper", "A", "--at", "2026-03-01 15:00")
    asked("bath", "mixed", "bleach", "--volume", "700 ml", "--kind", "bleach", "--at", "2026-03-01 17:12")
    html = page(2)
    assert "data:image/jpeg;base64," in html
    assert "&lt;b&gt;upper left&lt;/b&gt; &amp; more" in html and "a &lt;jug&gt;" in html
    assert "<th>verdict</th><td>good</td>" in html and "<th>defect</th><td>mottle</td>" in html
    assert "<th>given</th><td>3.5 s</td>" in html and "<th>batch</th><td>A: resin coated, 8x10</td>" in html
    assert "<th>bleach</th><td>mixed 2026-03-01 17:12, 1.0 h old</td>" in html


RESULT = {
    "steps": [
        {"band": band, "step": step, "dose_stops": stops, "density_d": density}
        for band, row in (("black", (0.4, 1.2, 2.0)), ("white", (0.05, 0.06, 0.2)))
        for step, (stops, density) in enumerate(zip((None, -1.0, 1.0), row, strict=True))
    ],
    "advice": {"stops": 0.25, "words": ["Give 7.1 s."]},
}


def test_the_curve_of_the_strip_behind_its_reference(folder: Path):
    with notebook(Path(os.environ["FOOTLIGHT_NOTEBOOK"]), writing=True) as book:
        kept = readings.Entry("strip", json.dumps(RESULT), sheet_id=1, setup="second", dose_s=7.1)
        number = readings.keep(book, kept, "read", b"a drawing", EVENING - 60)
        with act(book, "accepted", EVENING - 30) as act_id:
            change = light_setups.Change("light-setups.toml", "second", "5 s at 620 mm f/11", "6 s", number)
            light_setups.note(book, act_id, [change])
    for sheet in (1, 2):
        html = page(sheet)
        assert "strip for light setup &#x27;second&#x27; on sheet 1" in html and "Give 7.1 s." in html
        # Two doses in two bands: the zero step has no place on a scale of stops.
        assert html.count("<circle") == 4 and "advised" in html
        # What the reading drew is no picture of the print.
        assert "<figure" not in html


def test_a_strip_accepted_later_is_not_behind_it(folder: Path):
    with notebook(Path(os.environ["FOOTLIGHT_NOTEBOOK"]), writing=True) as book:
        number = readings.keep(book, readings.Entry("strip", json.dumps(RESULT)), "read", b"", EVENING)
        with act(book, "accepted", EVENING + 86_400) as act_id:
            light_setups.note(book, act_id, [light_setups.Change("f", "second", "", "6 s", number)])
    assert "<circle" not in page(2)


@pytest.mark.parametrize("bands", [{}, {"black": [(0.0, 1.0)]}])
def test_no_curve_of_a_point(bands: dict):
    assert curve.svg(bands) == ""


def test_where_the_points_of_a_curve_lie():
    drawn = curve.svg({"black": [(-1.0, 0.0), (1.0, 2.0)]}, 0.0)
    # The drawing is 360 x 190; axes from x 34 to 348 and from y 160 up to 12, which is 2.0 D x 1.08.
    assert 'cx="34.0" cy="160.0"' in drawn
    assert f'cx="348.0" cy="{160 - 148 / 1.08:.1f}"' in drawn
    assert '<path d="M191.0 12.0V160.0" stroke="#000" stroke-width="1.6"/>' in drawn


def test_names_of_bands_are_no_markup():
    assert "<script" not in curve.svg({"<script>": [(0.0, 1.0), (1.0, 2.0)]})


def test_without_its_plan_it_says_so(folder: Path):
    with notebook(Path(os.environ["FOOTLIGHT_NOTEBOOK"]), writing=True) as book:
        book.execute("DELETE FROM sends")
        book.execute("DELETE FROM programs")
    html = page(2)
    assert "The time line is not drawn" in html and "was not sent from this notebook" in html


def test_what_is_not_there(folder: Path):
    assert "sheet 41: not in the notebook" in refused("page", "sheet", 41)
    assert "no picture" in refused("page", "sheet", 1, "--which", 1)
    asked("page", "sheet", 1)
    assert "print-1.html: is there already" in refused("page", "sheet", 1)


@needs_browser
def test_printed_by_a_browser(folder: Path, tmp_path: Path):
    asked("attach", 2, photograph(folder / "p.png"))
    report = report_of(report_print(Path(os.environ["FOOTLIGHT_NOTEBOOK"]), 2))
    shown = Printout(printed(report, "a4"), tmp_path)
    # Facts and times on the first sheet of paper, the time line on the second.
    assert (shown.sheets, shown.size_mm) == (2, (210, 297))
    first, second = shown.pixels(1), shown.pixels(2)
    assert is_grey(first) and is_grey(second) and stands_free(first) and stands_free(second)


def test_a_picture_of_another_kind_is_refused():
    with pytest.raises(InputError, match="is no picture that a page shows"):
        printed(Report(1, "x", {}, [], Picture(b"", 'text/html" onload="x')))


@needs_browser
def test_the_picture_is_seen(tmp_path: Path):
    image = pytest.importorskip("PIL.Image")
    stream = io.BytesIO()
    image.new("L", (80, 100), 0).save(stream, "PNG")
    bare = Report(1, "x", {}, [], Picture(stream.getvalue(), "image/png"))
    pixels = Printout(printed(bare), tmp_path).pixels()
    assert (pixels < 10).all(axis=2).sum() > 5000
