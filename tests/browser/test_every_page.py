"""Every page as it is drawn: axe (WCAG 2 A and AA) finds nothing, the HTML parses without an error, it reads
at 400 % and on a small screen, in paper and ink and in reds on black; nothing is asked of elsewhere."""

import re
from importlib import resources

from justhtml import JustHTML
from tests.browser.conftest import Open

from footlight.desk.app import ROWS
from footlight.desk.sums import SUMS

PAGES = [
    "/tonight",
    "/tonight/run",
    "/sequence",
    "/sequence/pre-flash.toml",
    "/sequence/reversal-print.toml/plan",
    "/sequence/reversal-print.toml/card",
    "/sequence/reversal-print.toml/labels",
    "/reckon",
    "/reckon/time",
    "/reckon/time?found=6&new=x",
    "/reckon/bath",
    "/strip",
    "/prints",
    "/prints?verdict=good&since=never",
    "/prints/search?words=corner",
    "/prints/1",
    "/prints/1/report",
    "/prints/beside?number=1&number=2",
    "/stock",
    "/stock/bath/developer",
    "/stock/paper/A",
    "/stock/lens/portrait",
    "/stock/setup/second",
    "/stock/enter/bath-mixed",
    "/history",
    "/begin",
    "/setups",
    "/no-such-page",
]
PRINTED = ("/card", "/labels", "/report")
# Pictures, parts and streams, which are no pages, and one sum that stands for all.
# A scan and its acceptance are looked at where one is dropped, in test_strip.py.
NO_PAGES = {"/", "/reckon/{name}", "/strip/scan/{id}", "/strip/accept/{number:int}"}
ALL_RULES = "{runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'best-practice']}"
CONTRAST = "{runOnly: ['color-contrast']}"


def test_no_page_is_left_out():
    known = {re.sub(r"\?.*", "", page) for page in PAGES}
    for row in ROWS:
        is_page = (
            not row.changes
            and row.path not in NO_PAGES
            and not re.search(r"svg|png|chart|drift|picture|outside", row.path)
        )
        pattern = re.sub(r"\{[^}]+\}", "[^/]+", row.path)
        assert not is_page or any(re.fullmatch(pattern, page) for page in known), row.path
    assert len(SUMS) > 10


def axe_on(page, address: str, rules: str) -> list[str]:
    page.evaluate((resources.files("axe_playwright_python") / "axe.min.js").read_text(encoding="utf-8"))
    found = page.evaluate(f"axe.run(document, {rules})")["violations"]
    return [f"{address}: {one['id']}: {one['nodes'][0]['html'][:200]}" for one in found]


def over_px(page, width: int) -> int:
    page.set_viewport_size({"width": width, "height": 700})
    return page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth")


def test_every_page(page, desk: Open):
    """A window of 1280 at 400 % is 320 wide (WCAG 2.1, 1.4.10)."""
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    told = []
    for address in PAGES:
        page.goto(desk.home + address)
        told += [
            f"{address}: {error}"
            for error in JustHTML(page.request.get(page.url).text(), collect_errors=True).errors
        ]
        if not address.endswith(PRINTED):  # those are for paper: their own tests look at them
            told += axe_on(page, address, ALL_RULES)
            told += [f"{address}: runs out of {width}" for width in (320, 360) if over_px(page, width) > 0]
            page.set_viewport_size({"width": 1200, "height": 900})
    assert told == []
    assert len(asked) > 3 * len(PAGES)
    assert [url for url in asked if not url.startswith((desk.home, "data:"))] == []


def test_reds_on_black_can_be_read(page, desk: Open):
    page.get_by_role("button", name="Reds on black").click()
    told = []
    for address in ("/tonight", "/prints/1", "/reckon/time?found=6&new=x", "/stock", "/history", "/sequence"):
        page.goto(desk.home + address)
        assert page.evaluate("getComputedStyle(document.body).backgroundColor") == "rgb(0, 0, 0)"
        told += axe_on(page, address, CONTRAST)
    assert told == []
