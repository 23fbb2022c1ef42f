"""What lies on a sheet, by its edges and not by its tone: the sheet may be white paper, grey or black card.

Everything is looked at as tone (the cube root of light, nearly): there the noise of white and of black is
alike, and
so is an edge that the eye sees. Even regions between edges are background where they reach about the scan
or fill
most of one of its sides; what they leave are the pieces. Paper that has the tone of the sheet melts into
it but for
the shadow at its rim; `outline` looks for that line.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from footlight.strips.scan.overview import Overview

_BLUR_PX = 1.5
_LEAST_SLOPE = 0.003  # tone a pixel: an edge of 0.011, or 0.02 D in white
_OVER_NOISE = 4.0
_ABOUT, _SIDE = 0.75, 0.5  # shares of the scan's sides
_LID_BLUR_MM = 1.5
_LEAST_SIDE_MM, _MOST_PIECES = 5.0, 8
_OPEN = 4  # px: lines thinner than 1.6 mm are rims, hairs and the lid's edge


@dataclass(frozen=True)
class Sheet:
    """background: every region about the pieces. main: the largest of them, one tone. pieces: masks, the
    largest
    first. slopes: of tone, down and right [1/px]; their direction tells how a piece lies. box: what was
    looked at,
    without the lid about it."""

    background: NDArray
    main: NDArray
    pieces: tuple[NDArray, ...]
    slopes: tuple[NDArray, NDArray]
    box: tuple[slice, slice]
    px_per_mm: float


def tone(density: NDArray) -> NDArray:
    """From density [D] to a scale on which noise and what the eye sees are even, 0 … 1."""
    return 10.0 ** (-np.maximum(density, 0) / 2.4)


def find(view: Overview) -> Sheet:
    """The pieces on a sheet of any tone; none where the scan shows no background.

    A card that lies within the lid's border, and that the strip may touch, is looked at once more without
    the lid.
    """
    from scipy import ndimage

    tones = tone(view.density)
    slopes = tuple(
        ndimage.gaussian_filter(tones, _BLUR_PX, order=order)  # pyright: ignore[reportArgumentType]
        for order in ((1, 0), (0, 1))
    )
    everything = (slice(0, tones.shape[0]), slice(0, tones.shape[1]))
    sheet = _within(slopes, everything, view.px_per_mm)
    card = _card(sheet, view.px_per_mm)
    on_card = None if card is None else _within(slopes, card, view.px_per_mm)
    return on_card if on_card is not None and len(on_card.pieces) > 1 else sheet


def _card(sheet: Sheet, px_per_mm: float) -> tuple[slice, slice] | None:
    """Where one piece fills most of the scan: it is the card that everything lies on, not the strip."""
    from scipy import ndimage

    if not sheet.pieces or sum(mask.sum() for mask in sheet.pieces[1:]) > 0.02 * sheet.main.size:
        return None
    box = ndimage.find_objects(sheet.pieces[0].astype(int))[0]
    spans = [(part.stop - part.start) / whole for part, whole in zip(box, sheet.main.shape, strict=True)]
    inset = round(_LID_BLUR_MM * px_per_mm)
    rows, columns = (slice(part.start + inset, part.stop - inset) for part in box)
    return (rows, columns) if min(spans) > _ABOUT else None


def _within(slopes: tuple[NDArray, ...], box: tuple[slice, slice], px_per_mm: float) -> Sheet:
    from scipy import ndimage

    slope = np.hypot(*(part[box] for part in slopes))
    flat = slope < max(_LEAST_SLOPE, _OVER_NOISE * float(np.median(slope)))
    regions, count = _labelled(flat)
    about = _about(regions, count)
    sizes = np.bincount(regions.ravel(), minlength=count + 1) * about
    solid = ndimage.binary_opening(ndimage.binary_fill_holes(~about[regions]), iterations=_OPEN)
    labels, _ = _labelled(np.asarray(solid))
    main = (regions == int(sizes.argmax())) & about.any()
    whole = [_placed(mask, box, slopes[0].shape) for mask in _large(labels, px_per_mm)]
    return Sheet(
        _placed(about[regions], box, slopes[0].shape), _placed(main, box, slopes[0].shape), tuple(whole),
        (slopes[0], slopes[1]), box, px_per_mm,
    )  # fmt: skip


def _labelled(mask: NDArray) -> tuple[NDArray, int]:
    from scipy import ndimage

    labels, count = ndimage.label(mask)  # type: ignore[misc]
    return np.asarray(labels), int(count)


def _placed(mask: NDArray, box: tuple[slice, slice], shape: tuple[int, ...]) -> NDArray:
    whole = np.zeros(shape, bool)
    whole[box] = mask
    return whole


def _about(regions: NDArray, count: int) -> NDArray:
    """Which regions reach about the scan, or fill most of one of its sides."""
    from scipy import ndimage

    about = np.zeros(count + 1, bool)
    sides = (regions[0], regions[-1], regions[:, 0], regions[:, -1])
    for side in sides:
        shares = np.bincount(side, minlength=count + 1) / len(side)
        about |= shares > _SIDE
    for region, box in enumerate(ndimage.find_objects(regions), 1):
        spans = [(part.stop - part.start) / whole for part, whole in zip(box, regions.shape, strict=True)]
        about[region] |= min(spans) > _ABOUT
    about[0] = False
    return about


def _large(labels: NDArray, px_per_mm: float) -> tuple[NDArray, ...]:
    sizes = np.bincount(labels.ravel())[1:]
    least = (_LEAST_SIDE_MM * px_per_mm) ** 2
    return tuple(labels == index + 1 for index in np.argsort(-sizes)[:_MOST_PIECES] if sizes[index] >= least)


def direction(sheet: Sheet, mask: NDArray) -> float:
    """How a piece lies [rad, −π/4 … π/4]: the direction that most of its edges have, right angles alike."""
    down, right = (slope[mask] for slope in sheet.slopes)
    weight = (down**2 + right**2) ** 0.5
    weight = np.where(weight > _LEAST_SLOPE, weight, 0)
    angles = np.arctan2(down, right)
    best = 0.0
    for reach in (np.pi, 0.2, 0.06, 0.03):
        off = (angles - best + np.pi / 4) % (np.pi / 2) - np.pi / 4
        best += float(np.angle(np.sum(weight * (np.abs(off) < reach) * np.exp(4j * off))) / 4)
    return (best + np.pi / 4) % (np.pi / 2) - np.pi / 4
