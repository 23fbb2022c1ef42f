"""What a picture file holds, before it is a scan: pixels as a viewer shows them, resolution, what to know."""

from dataclasses import dataclass
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from footlight.strips.errors import ScanError

MOST_PIXELS = 200_000_000
EXIF, ORIENTATION = 34665, 274
# EXIF tags that a camera writes and a scanner has no reason to: ExposureTime, FNumber, FocalLength.
_CAMERA_TAGS = {33434, 33437, 37386, "ExposureTime", "FNumber", "FocalLength"}
TRANSPARENT = "transparent parts are taken as white"
PALETTE = "stored with a palette of few tones: mottle is not to be trusted; save it in grey or RGB"


@dataclass(frozen=True)
class Stored:
    """pixels: rows × columns, or × channels. ppi: across and down [1/in], None where the file has none."""

    pixels: NDArray
    ppi: tuple[float, float] | None
    notes: tuple[str, ...] = ()


def refuse_enormous(path: Path, width: int, height: int) -> None:
    """Before it is unpacked: a small file may claim to be any size."""
    if width * height > MOST_PIXELS:
        raise enormous(path, f"{width} × {height} pixels")


def enormous(path: Path, said: str) -> ScanError:
    """said: how many pixels there are."""
    most = f"at most {MOST_PIXELS / 1e6:.0f} million are read"
    return ScanError(f"{path}: {said}; {most}: scan only the strip, at 600 ppi")


def refuse_camera(path: Path, tags) -> None:
    """tags: numbers or names of the EXIF tags that the file has."""
    if _CAMERA_TAGS & set(tags):
        raise ScanError(
            f"{path}: a camera's photograph, whose light and lens spoil the densities; lay the dry strip on"
            " a scanner"
        )


def refuse_colours(path: Path, colours: str) -> None:
    """Stored in colours from which no density can be had."""
    raise ScanError(f"{path}: stored in {colours}; scan in grey or RGB, 8 or 16 bits")


def upright(pixels: NDArray, orientation: int) -> NDArray:
    """The picture as it is meant to be seen (TIFF 6.0 and EXIF, tag 274), without copying it."""
    if orientation in (5, 6, 7, 8):
        pixels = pixels.swapaxes(0, 1)
    if orientation in (3, 4, 7, 8):
        pixels = pixels[::-1]
    if orientation in (2, 3, 6, 7):
        pixels = pixels[:, ::-1]
    return pixels


def opaque(pixels: NDArray) -> tuple[NDArray, tuple[str, ...]]:
    """(pixels without their last channel, note): what is wholly transparent becomes white."""
    colours, alpha = pixels[:, :, :-1], pixels[:, :, -1]
    if alpha.all():
        return colours, ()
    return np.where(alpha[:, :, None] == 0, np.iinfo(pixels.dtype).max, colours), (TRANSPARENT,)
