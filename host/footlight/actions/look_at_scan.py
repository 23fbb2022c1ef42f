"""A scan made small enough for a page, with its size."""

import io
from dataclasses import dataclass

from footlight.actions import open_scan
from footlight.actions.open_scan import ScanFile
from footlight.strips import need

_LONGEST_PX = 1400


@dataclass(frozen=True)
class ScanLook:
    """png: every n-th pixel in 8 bits. width_mm, height_mm: of the whole scan [mm]."""

    png: bytes
    width_mm: float
    height_mm: float


def look_at_scan(scan: ScanFile) -> ScanLook:
    """How a scan looks. Raises ScanError, one line, for what is no scan."""
    need.scans()
    from PIL import Image

    opened = open_scan.opened(scan)
    height_px, width_px = opened.pixels.shape[:2]
    step = max(1, -(-max(height_px, width_px) // _LONGEST_PX))
    pixels = opened.pixels[::step, ::step]
    eight_bits = (pixels >> 8 if opened.bits == 16 else pixels).astype("uint8")
    written = io.BytesIO()
    Image.fromarray(eight_bits).save(written, "PNG")
    return ScanLook(written.getvalue(), width_px / opened.px_per_mm, height_px / opened.px_per_mm)
