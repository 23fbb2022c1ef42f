"""Baths, papers and lenses as a script writes them down: what is not said, and what is refused."""

from pathlib import Path

import pytest

from footlight.actions.add_lens import add_lens, from_file
from footlight.actions.add_paper import add_paper
from footlight.actions.chart_bath import chart_bath
from footlight.actions.expose_sheet import InCamera, expose_sheet
from footlight.actions.list_lenses import lens_cards
from footlight.actions.list_papers import list_papers, show_paper
from footlight.actions.mix_baths import Mixture, mix_baths
from footlight.actions.note_paper import count_off_paper, use_paper
from footlight.actions.show_sheet import show_sheet
from footlight.camera.settings import settings_of
from footlight.errors import InputError
from footlight.notebook.errors import NotebookError
from footlight.quantities import parse_stop
from footlight.written.mixes import formula

NOW_S = 1_772_388_000


@pytest.fixture
def book(tmp_path: Path) -> Path:
    return tmp_path / "notebook.sqlite"


def test_another_kind_is_no_bath_of_the_formula_of_before(book: Path):
    bleach = Mixture(700.0, formula("peroxide-bleach"))
    (first,) = mix_baths(book, ["bleach"], bleach, NOW_S, NOW_S)
    (again,) = mix_baths(book, ["bleach"], Mixture(), NOW_S, NOW_S)
    (other,) = mix_baths(book, ["bleach"], Mixture(kind="other"), NOW_S, NOW_S)
    assert (first.mixed.formula, first.mixed.kind) == (again.mixed.formula, "bleach")
    assert (other.mixed.formula, other.mixed.kind, other.mixed.volume_ml) == ("", "other", 700.0)


def test_no_chart_of_no_bath_and_none_over_a_file(book: Path, tmp_path: Path):
    mix_baths(book, ["bleach"], Mixture(700.0), NOW_S, NOW_S)
    assert chart_bath(book, "bleach", NOW_S, None, False) == []
    with pytest.raises(NotebookError, match="none of that name"):
        chart_bath(book, "soup", NOW_S, None, False)
    there = tmp_path / "there.svg"
    there.touch()
    with pytest.raises(InputError, match="is there already"):
        chart_bath(book, "bleach", NOW_S, there, False)
    with pytest.raises(InputError, match="is there already"):
        show_sheet(book, 41, picture=there)


def test_a_paper_is_in_use_for_its_own_size(book: Path):
    for name, size in (("A", "8x10"), ("B", "5x7"), ("C", "8x10")):
        added = add_paper(book, name, "baryta", size, 25, None, NOW_S)
    assert added.in_use is not None and added.in_use.name == "A"
    use_paper(book, "C", NOW_S)
    listed = list_papers(book)
    assert [batch.name for batch in listed.batches if batch.id in listed.in_use] == ["B", "C"]
    # B was used last of all, and is of another size.
    use_paper(book, "B", NOW_S)
    added = add_paper(book, "D", "baryta", "8x10", 25, None, NOW_S)
    assert added.in_use is not None and added.in_use.name == "C"


def test_the_last_sheets_can_be_counted_off_with_a_reason(book: Path):
    add_paper(book, "A", "baryta", "8x10", 3, None, NOW_S)
    assert count_off_paper(book, "A", 3, "cut up for strips", NOW_S).left == 0
    assert [finding.text for finding in show_paper(book, "A").findings] == ["cut up for strips"]
    with pytest.raises(InputError, match="only 0 left"):
        count_off_paper(book, "A", 1, "", NOW_S)


def test_a_sheet_keeps_its_paper_and_says_whether_it_was_filled_in(book: Path):
    for name in ("A", "B"):
        add_paper(book, name, "baryta", "8x10", 25, None, NOW_S)
    said = expose_sheet(book, 1, InCamera(planned_s=4.0, paper="A"), NOW_S)
    assert said.paper is not None and (said.paper.name, said.paper_filled_in) == ("A", False)
    use_paper(book, "B", NOW_S)
    kept = expose_sheet(book, 1, InCamera(given_s=4.0), NOW_S)
    assert kept.paper is not None and (kept.paper.name, kept.paper_filled_in) == ("A", False)
    filled = expose_sheet(book, 2, InCamera(planned_s=4.0), NOW_S)
    assert filled.paper is not None and (filled.paper.name, filled.paper_filled_in) == ("B", True)


def test_a_lens_of_the_camera_file_and_its_marks(book: Path):
    table = {"lens": {"wide": {"focal": "90 mm", "stops": ["f/8", "f/11"], "openings": {"f/8": "11.25 mm"}}}}
    settings = settings_of(table, lambda *keys: ".".join(map(str, keys)))
    lens = from_file(settings, "wide", None, "")
    assert (lens.widest, lens.true_stops) == ("f/8", "f/8 = 8")
    add_lens(book, lens, NOW_S)
    (card,) = lens_cards(book, ["wide"], [parse_stop("f/16", "stop")])
    assert [f"{row.stop}" for row in card.rows] == ["f/8", "f/16"]
