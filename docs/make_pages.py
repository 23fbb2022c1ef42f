"""Writes docs/page-card.png, page-labels.png, page-lens.png: pages as chromium prints them on A4.

Each picture holds the SHA-256 of the page that it shows, so that a test can tell, without a browser, whether
the page is still that one. `python docs/make_pages.py`; it needs chromium, pdftoppm and pillow, and leaves
the pictures alone where the pages are unchanged.
"""

import hashlib
import shutil
import subprocess
import tempfile
from pathlib import Path

from footlight import examples, sequence
from footlight.camera.lens import Lens, card
from footlight.camera.page import page as lens_page
from footlight.quantities import FStop
from footlight.report.pages import card as wall_card
from footlight.report.pages import labels, labels_of
from footlight.report.pages.card_of import card_of

DOCS = Path(__file__).parent
KEY = "sha256 of the page"
MOST_BYTES = 150 * 1024
_DPI, _GREYS = 80, 16
_MARKS = (5.6, 8, 11, 16, 22, 32, 45)


def pages() -> dict[Path, str]:
    """Picture -> the page [HTML text] that it shows."""
    loaded = sequence.load(examples.path("reversal-print"))
    stops = tuple(FStop.nearest(mark) for mark in _MARKS)
    lens = Lens("an invented portrait lens", 210.0, stops, measured_mm=((stops[5], 7.14),))
    return {
        DOCS / "page-card.png": wall_card.printed(card_of(sequence.compile(loaded)), "a4").html,
        DOCS / "page-labels.png": labels.printed(labels_of.labels_of(loaded, {}), loaded.name, "a4"),
        DOCS / "page-lens.png": lens_page([card(lens)]),
    }


def digest(html: str) -> str:
    """What a picture says of its page."""
    return hashlib.sha256(html.encode()).hexdigest()


def shown(picture: Path) -> str:
    """The digest that a picture holds; '' for none."""
    from PIL import Image

    with Image.open(picture) as image:
        return str(image.info.get(KEY, ""))


def trimmed(image):
    """The picture without the white below what is printed."""
    from PIL import ImageOps

    left, top, _, bottom = ImageOps.invert(image.convert("L")).getbbox() or (0, 0, *image.size)
    return image.crop((0, 0, image.width, min(image.height, bottom + min(left, top))))


def draw(html: str, picture: Path) -> None:
    """Print a page with the browser, and keep its first sheet as a small grey picture."""
    from PIL import Image
    from PIL.PngImagePlugin import PngInfo

    browser = shutil.which("chromium") or "chromium-browser"
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        source, pdf, sheet = folder / "page.html", folder / "page.pdf", folder / "page"
        source.write_text(html, encoding="utf-8")
        words = ["--headless", "--no-sandbox", "--disable-gpu", "--no-pdf-header-footer"]
        subprocess.run(
            [
                browser,
                *words,
                f"--user-data-dir={folder / 'profile'}",
                f"--print-to-pdf={pdf}",
                source.as_uri(),
            ],
            check=True,
            capture_output=True,
        )
        subprocess.run(["pdftoppm", "-r", f"{_DPI}", "-gray", "-png", "-singlefile", pdf, sheet], check=True)
        told = PngInfo()
        told.add_text(KEY, digest(html))
        with Image.open(sheet.with_suffix(".png")) as image:
            trimmed(image).quantize(_GREYS).save(picture, optimize=True, pnginfo=told)


if __name__ == "__main__":
    for target, page in pages().items():
        if not target.exists() or shown(target) != digest(page):
            draw(page, target)
