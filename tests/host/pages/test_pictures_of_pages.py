"""The pictures in docs/pages.md show the pages that the code would print now."""

import pytest
from tests.host.test_pages import DOCS, load

pytest.importorskip("PIL.Image")
MAKER = load("make_pages")


@pytest.mark.parametrize("picture", list(MAKER.pages()), ids=lambda path: path.stem)
def test_a_picture_is_of_its_page(picture):
    assert MAKER.shown(picture) == MAKER.digest(MAKER.pages()[picture]), "run: python docs/make_pages.py"
    assert picture.stat().st_size < MAKER.MOST_BYTES
    assert f"({picture.name})" in (DOCS / "pages.md").read_text(encoding="utf-8")


def test_a_picture_of_another_page_is_noticed():
    first, second, _ = MAKER.pages().values()
    assert MAKER.digest(first) != MAKER.digest(second)
