"""Writes docs/desk-*.png: pages of the desk in a real browser, with the invented evening of its tests.

Each picture holds a SHA-256 of the templates and styles that it shows; one that is still that is left alone.
`python docs/make_desk.py`; it needs chromium, playwright and pillow.
"""

import hashlib
import io
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).parents[1]
DOCS = ROOT / "docs"
DESK = ROOT / "host" / "footlight" / "desk"
KEY = "sha256 of the desk"
_COLOURS = 48
_WIDTH, _HEIGHT = 1120, 760
TABLET = "0.06, 0.2, 0.35, 0.5, 0.7, 0.9, 1.1, 1.3, 1.5, 1.7, 1.9, 2.1"


def digest() -> str:
    """Of everything that decides how a page looks."""
    files = sorted([*DESK.glob("templates/*.html"), *DESK.glob("static/desk.*")])
    return hashlib.sha256(b"".join(path.read_bytes() for path in files)).hexdigest()


def shown(picture: Path) -> str:
    """The digest that a picture holds; '' for none."""
    from PIL import Image

    if not picture.exists():
        return ""
    with Image.open(picture) as image:
        return str(image.info.get(KEY, ""))


def draw(folder: Path) -> None:
    """Open the pages, and keep what they show."""
    sys.path.insert(0, str(ROOT))
    from playwright.sync_api import sync_playwright
    from tests.browser.conftest import CHROMIUM, make_evening, served

    from footlight.desk.desk import Desk

    make_evening(folder)
    book = folder / "demo" / "notebook.sqlite"
    with served(Desk(book, folder)) as desk, sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=["--no-sandbox"])
        page = browser.new_page(viewport={"width": _WIDTH, "height": _HEIGHT})
        page.goto(desk.way_in)
        keep(page.screenshot(), DOCS / "desk-tonight.png")
        page.goto(desk.home + "/sequence/reversal-print.toml")
        keep(page.screenshot(), DOCS / "desk-sequence.png")
        page.goto(desk.home + "/strip")
        page.set_input_files("#scan", folder / "strip.tif")
        for name, text in (("tablet", TABLET), ("present", "8 s"), ("centre", "8 s")):
            page.fill(f"#{name}", text)
        page.get_by_role("button", name="Read it").click()
        page.wait_for_selector(".outline")
        keep(page.screenshot(), DOCS / "desk-strip.png")
        browser.close()


def keep(png: bytes, picture: Path) -> None:
    """A small picture that says of what it is."""
    from PIL import Image
    from PIL.PngImagePlugin import PngInfo

    told = PngInfo()
    told.add_text(KEY, digest())
    with Image.open(io.BytesIO(png)) as image:
        image.convert("RGB").quantize(_COLOURS).save(picture, optimize=True, pnginfo=told)


if __name__ == "__main__":
    if any(shown(DOCS / f"desk-{name}.png") != digest() for name in ("tonight", "sequence", "strip")):
        with tempfile.TemporaryDirectory() as place:
            draw(Path(place))
