"""Links between pages lead to a page and a heading that are there; every page is in the map."""

import re
from pathlib import Path

import pytest
from tests.documents.fences import REPOSITORY

PAGES = [*sorted(REPOSITORY.glob("*.md")), *sorted((REPOSITORY / "docs").glob("*.md"))]
MAP = REPOSITORY / "docs" / "README.md"
LINK = re.compile(r"\]\((?!https?://)([^)#\s]*)(?:#([^)\s]+))?\)")


def without_code(page: Path) -> str:
    return re.sub(r"```.*?```", "", page.read_text(encoding="utf-8"), flags=re.DOTALL)


def anchors(page: Path) -> set[str]:
    """The headings as links name them: small letters, blanks as hyphens, marks left out."""
    headings = re.findall(r"^#+ (.+)$", without_code(page), flags=re.MULTILINE)
    return {re.sub(r"[^\w\- ]", "", heading.lower()).strip().replace(" ", "-") for heading in headings}


def broken(page: Path) -> list[str]:
    wrong = []
    for target, anchor in LINK.findall(without_code(page)):
        there = (page.parent / target).resolve() if target else page
        if not there.exists() or (anchor and anchor not in anchors(there)):
            wrong.append(f"{target}#{anchor}" if anchor else target)
    return wrong


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.relative_to(REPOSITORY).as_posix())
def test_links_lead_somewhere(page: Path):
    assert broken(page) == []


def test_every_page_is_in_the_map():
    linked = {(MAP.parent / target).resolve() for target, _ in LINK.findall(without_code(MAP))}
    assert [
        page.name for page in PAGES if page.parent == MAP.parent and page != MAP and page not in linked
    ] == []


def test_a_broken_link_is_noticed(tmp_path: Path):
    page = tmp_path / "page.md"
    page.write_text(
        "# One thing: well\n[a](page.md#one-thing-well) [b](#two) [c](none.md)\n", encoding="utf-8"
    )
    assert broken(page) == ["#two", "none.md"]
