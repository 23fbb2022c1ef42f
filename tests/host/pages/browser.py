"""A page as a real browser prints it: how many sheets of paper, and what is on them."""

import re
import shutil
import subprocess
from pathlib import Path

import pytest

BROWSER = next((found for name in ("chromium", "chromium-browser") if (found := shutil.which(name))), None)
READER = shutil.which("pdftoppm")
FONTS = shutil.which("fc-list")
POINTS_MM = 25.4 / 72
DPI = 150


def _has_type() -> bool:
    """Is the type here, or its metric twin, in which pages are measured?"""
    if FONTS is None:
        return False
    families = subprocess.run([FONTS, ":", "family"], capture_output=True, text=True, check=False).stdout
    return "Liberation Sans" in families or "Arial" in families


needs_browser = pytest.mark.skipif(
    BROWSER is None or READER is None or not _has_type(),
    reason="NOT LOOKED AT: no chromium, no pdftoppm, or no Liberation Sans, on this machine prints the pages",
)


class Printout:
    """A printed page: its PDF, and its sheets as pictures."""

    def __init__(self, html: str, folder: Path, name: str = "page") -> None:
        assert BROWSER is not None
        source, self.path = folder / f"{name}.html", folder / f"{name}.pdf"
        source.write_text(html, encoding="utf-8")
        # No sandbox: tests may run as root in a container. The page is our own, and holds no script.
        words = ["--headless", "--no-sandbox", "--disable-gpu", "--no-pdf-header-footer"]
        profile = f"--user-data-dir={folder / 'profile'}"
        subprocess.run(
            [BROWSER, *words, profile, f"--print-to-pdf={self.path}", source.as_uri()],
            check=True,
            capture_output=True,
            timeout=120,
        )

    @property
    def sheets(self) -> int:
        """Sheets of paper."""
        return len(re.findall(rb"/Type\s*/Page\b", self.path.read_bytes()))

    @property
    def size_mm(self) -> tuple[int, int]:
        """Width and height of the paper [mm]."""
        found = re.search(rb"/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)\s*\]", self.path.read_bytes())
        assert found is not None
        return round(float(found[1]) * POINTS_MM), round(float(found[2]) * POINTS_MM)

    def pixels(self, sheet: int = 1):
        """One sheet as an array of rows of (red, green, blue), at `DPI`."""
        import numpy as np
        from PIL import Image

        assert READER is not None
        where = self.path.with_suffix("")
        subprocess.run(
            [
                READER,
                "-r",
                f"{DPI}",
                "-png",
                "-singlefile",
                "-f",
                f"{sheet}",
                "-l",
                f"{sheet}",
                self.path,
                where,
            ],
            check=True,
            timeout=120,
        )
        return np.asarray(Image.open(where.with_suffix(".png")).convert("RGB"))


def is_grey(pixels) -> bool:
    """No colour at all: whatever is there is black, white or between."""
    import numpy as np

    spread = pixels.max(axis=2).astype(int) - pixels.min(axis=2)
    return bool(np.all(spread <= 2))


def stands_free(pixels, margin_mm: float = 8.0) -> bool:
    """Nothing is cut at an edge of the paper."""
    margin = round(margin_mm / 25.4 * DPI)
    edges = (pixels[:margin], pixels[-margin:], pixels[:, :margin], pixels[:, -margin:])
    return all(bool((edge > 250).all()) for edge in edges)
