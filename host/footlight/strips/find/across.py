"""A band that lies across a picture: measured only where it is plain.

Before its second exposure, white paper is as even as the scanner sees it. Where the first two steps of a band
hold both smooth and far rougher tiles, a picture lies there, and only its smooth parts tell of the paper. How
smooth paper is, the zero step of the black band shows, which no light reached.
"""

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from footlight.strips.errors import ScanError
from footlight.strips.measure.cells import WHITE_BANDS, Cell

LEAST_TILES = 9
# The roughest tenth of the tiles against the smoothest (variances): 1.5 at most on simulated plain paper, 5
# and more where fine detail of 0.1 D covers a third of a step or more.
_ROUGHER = 3.0
_ROUGH = 3.0
# Detail of a picture within a tile [D], and over what share of the zero step at least: lustre has 0.01 D.
_DETAIL_D, _LEAST_PICTURE = 0.015, 0.2
_DARKER_D = 0.08


def plain_only(cells: dict[str, list[Cell]], name: str) -> tuple[dict[str, list[Cell]], tuple[str, ...]]:
    """(cells with pictures masked, notes). A band that shows too little plain paper is left out.

    Raises ScanError where that is the black band.
    """
    kept, notes = {}, []
    for band, row in cells.items():
        if not _holds_a_picture(row):
            kept[band] = row
            continue
        floor = _floor(cells, row) if band in WHITE_BANDS else None
        plain = [_plain_tiles(cell, floor) for cell in row]
        shares = [float(np.isfinite(tiles).mean()) for tiles in plain[:-1]]
        share = f"step {int(np.argmin(shares))}: {min(shares):.0%} plain"
        if all(_is_enough(tiles) for tiles in plain[:-1]):
            kept[band] = [_with(cell, tiles) for cell, tiles in zip(row, plain, strict=True)]
            notes.append(f"the band '{band}' lies across a picture: measured where it is plain ({share})")
        elif band == "black":
            raise ScanError(
                f"{name}: the black band is no plain paper ({share}); it must lie where no light came in the"
                " camera"
            )
        else:
            notes.append(f"the band '{band}' lies across a picture ({share}): too little, it is left out")
    return kept, tuple(notes)


def _holds_a_picture(row: list[Cell]) -> bool:
    """What the scanner clipped is smooth there, and rough where it is not quite: that is no picture."""
    return any(_is_pictured(cell) for cell in row[:1] if not cell.is_clipped)


def _is_pictured(cell: Cell) -> bool:
    """Rough over a good part of it, and rough enough to be seen: a drop, a hair or a lustre surface is
    neither."""
    smooth, rough = np.quantile(cell.variances, [0.1, 1 - _LEAST_PICTURE])
    return bool(rough > max(_ROUGHER * smooth, _DETAIL_D**2))


def _floor(cells: dict[str, list[Cell]], row: list[Cell]) -> float:
    """The variance within tiles of plain white paper [D²]."""
    black = cells.get("black")
    if black is not None and not black[0].is_clipped and not _holds_a_picture(black):
        return float(np.median(black[0].variances))
    return float(np.quantile(np.concatenate([cell.variances.ravel() for cell in row]), 0.05))


def _plain_tiles(cell: Cell, floor: float | None) -> NDArray:
    """Tiles without the rough ones; of a white band (`floor` known) without those far darker, too.

    A step beyond its limit is rough and dark by itself: what this takes away there is far above every limit.
    """
    smooth = float(np.quantile(cell.variances, 0.1)) if floor is None else floor
    tiles = np.where(cell.variances > _ROUGH * smooth, np.nan, cell.tiles_d)
    if floor is None or not np.isfinite(tiles).any():
        return tiles
    return np.where(tiles > np.nanquantile(tiles, 0.1) + _DARKER_D, np.nan, tiles)


def _is_enough(tiles: NDArray) -> bool:
    return int(np.isfinite(tiles).sum()) >= LEAST_TILES


def _with(cell: Cell, tiles: NDArray) -> Cell:
    """The anchor of a white may be rough all over, and says nothing of U: it then stays as it is."""
    return replace(cell, tiles_d=tiles) if _is_enough(tiles) else cell
