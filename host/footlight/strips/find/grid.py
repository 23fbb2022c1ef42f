"""Find the steps and bands of a strip: which end is zero, which side is black, where each step ends."""

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from footlight.errors import field
from footlight.strips.errors import ScanError
from footlight.strips.find import edges
from footlight.strips.find.place import Grid, Place
from footlight.strips.scan.overview import Overview

BANDS = ("black", "grey", "white", "white2")  # as the crossed strip is planned
_STEPPED = ("black", "grey")
_SAMPLE_MM = 0.2
_BAND_NEAR = 0.15
_LEAST_BLACK_D = 0.25
_LEAST_STEP_MM = 6.0
_RIM_SHARE = 0.3
_SIDES = ("above", "below")


@dataclass(frozen=True)
class Guide:
    """What is known beforehand.

    steps: how many, zero and anchor included. bands: their names in order, one for a plain strip. edges_mm:
    inner edges given by hand [mm from the zero end]. short: the steps run along the short side. lightens: the
    steps make all bands lighter, and the first band is the darkest. least_d: how much the ends of the strip
    must differ [D]. corners_mm: of the strip, by hand [mm in the scan].
    """

    steps: int
    bands: tuple[str, ...] = BANDS
    edges_mm: tuple[float, ...] = ()
    short: bool = False
    lightens: bool = False
    least_d: float = _LEAST_BLACK_D
    corners_mm: tuple[tuple[float, float], ...] = ()

    @property
    def is_faint(self) -> bool:
        """A strip whose edges may all be too faint to see: spacing then places them."""
        return self.least_d < _LEAST_BLACK_D


def find(view: Overview, paper: Place, guide: Guide, name: str) -> Grid:
    """Steps and bands of a piece of paper. Raises ScanError, one line, where it shows no such strip."""
    place = paper.turned(1) if guide.short else paper
    if place.length_mm < guide.steps * _LEAST_STEP_MM:
        raise ScanError(
            f"{name}: {place.length_mm:.0f} mm cannot hold {guide.steps} steps of {_LEAST_STEP_MM:g} mm or"
            f" more; check {field('ppi')} and the number of steps"
        )
    place = (_darkest_first if guide.lightens else _upright)(view, place, guide, name)
    picture = _samples(view, place)
    bands = _bands(picture, place, guide, name)
    # Whites grow blotchy, not stepped: where there is a black band it shows the edges better.
    rows = [
        _row(picture, low.at_mm, high.at_mm)
        for band, low, high in zip(guide.bands, bands, bands[1:], strict=False)
        if guide.lightens or band in _STEPPED or not set(_STEPPED) & set(guide.bands)
    ]
    steps, note = _steps(np.array(rows), place, guide, name)
    grid = Grid(place, steps, bands, guide.bands, (note,) if note else ())
    return _checked(grid, picture, guide, name)


def _samples(view: Overview, place: Place) -> NDArray:
    along = np.arange(_SAMPLE_MM / 2, place.length_mm, _SAMPLE_MM)
    across = np.arange(_SAMPLE_MM / 2, place.width_mm, _SAMPLE_MM)
    return view.sample(place.at(along[None, :], across[:, None]))


def _row(picture: NDArray, low_mm: float, high_mm: float) -> NDArray:
    """The profile along a band, its rims left out."""
    inset = 0.2 * (high_mm - low_mm)
    first, last = (int(at / _SAMPLE_MM) for at in (low_mm + inset, high_mm - inset))
    return np.median(picture[first : last + 1], axis=0)


def _upright(view: Overview, place: Place, guide: Guide, name: str) -> Place:
    """Zero end first, and the black band on its own side."""
    picture = _samples(view, place)
    count = len(guide.bands)
    wanted = guide.bands.index("black") if "black" in guide.bands else 0
    pitch = place.width_mm / count
    rises = {}
    for row in {wanted, count - 1 - wanted}:
        profile = _row(picture, row * pitch, (row + 1) * pitch)
        end = max(3, len(profile) // (2 * guide.steps))
        rises[row] = float(np.median(profile[-end:-2]) - np.median(profile[2:end]))
    row, rise = max(rises.items(), key=lambda item: abs(item[1]))
    if abs(rise) < guide.least_d and ("black" in guide.bands or count == 1):
        raise ScanError(
            f"{name}: no black grows from one end to the other (only {abs(rise):.2f} D); this is no strip of"
            f" {guide.steps} steps"
            + (" with the black band at a side" if count > 1 else " that reach far enough")
        )
    if rise < 0:
        place, row = place.turned(2), count - 1 - row
    if row != wanted:
        raise ScanError(
            f"{name}: with the zero end to the left the black band lies {_SIDES[row > 0]}, not"
            f" {_SIDES[wanted > 0]}:"
            " the scan is mirrored, or the strip was covered from its other end; scan it without"
            f" mirroring, or give the bands as they then lie from above, {field('bands')}"
            f" '{', '.join(reversed(guide.bands))}'"
        )
    return place


def _darkest_first(view: Overview, place: Place, guide: Guide, name: str) -> Place:
    """The darkest band first, and the end first where its bands are darkest."""
    picture = _samples(view, place)
    count = len(guide.bands)
    levels = [float(np.median(part)) for part in np.array_split(picture, count, axis=0)]
    if levels[-1] > levels[0]:
        place, picture = place.flipped(), picture[::-1]
    end = max(3, picture.shape[1] // (2 * guide.steps))
    fall = float(np.median(picture[:, 2:end]) - np.median(picture[:, -end:-2]))
    if abs(fall) < guide.least_d or abs(levels[0] - levels[-1]) < guide.least_d:
        raise ScanError(
            f"{name}: neither {guide.steps} flashes nor {count} tones are seen (ends differ by"
            f" {abs(fall):.2f} D); this is no strip of flash bands"
        )
    return place if fall > 0 else place.turned(2).flipped()


def _bands(picture: NDArray, place: Place, guide: Guide, name: str):
    count = len(guide.bands)
    if count == 1:
        return edges.fit(np.array([]), place.width_mm, 1, name)[0]
    parts = np.array_split(picture, guide.steps, axis=1)
    profiles = np.array(
        [np.median(part[:, len(part[0]) // 4 : -len(part[0]) // 4], axis=1) for part in parts]
    )
    found = edges.seen(profiles, 1 / _SAMPLE_MM, 0.5 * place.width_mm / count)
    # Bands are planned equal, and blotches in the whites look like edges: keep what lies where one should.
    pitch = place.width_mm / count
    away = np.abs(found - pitch * np.clip(np.round(found / pitch), 1, count - 1))
    return edges.fit(found[away < _BAND_NEAR * pitch], place.width_mm, count, f"{name}, bands")[0]


def _steps(rows: NDArray, place: Place, guide: Guide, name: str):
    what = f"{name}, steps"
    if guide.edges_mm:
        return edges.by_hand(guide.edges_mm, place.length_mm, guide.steps, what), ""
    pitch = place.length_mm / guide.steps
    found = edges.seen(rows, 1 / _SAMPLE_MM, 0.4 * pitch)
    # Nearer to an end lie the paper's own rim and its shadow, where it was cut aslant.
    found = found[np.minimum(found, place.length_mm - found) > _RIM_SHARE * pitch]
    if len(found) < min(2, guide.steps - 1) and not guide.is_faint:
        raise ScanError(
            f"{what}: no edges are seen; is this a strip? Else give them by hand: {field('edges')}"
        )
    try:
        return edges.fit(found, place.length_mm, guide.steps, what)
    except ScanError as error:
        return _one_missing(found, place, guide, what, error)


def _one_missing(found: NDArray, place: Place, guide: Guide, what: str, error: ScanError):
    """The last step may have been cut off: one less must then fit, and fit well."""
    try:
        steps, _ = edges.fit(found, place.length_mm, guide.steps - 1, what)
    except ScanError:
        raise error from None
    return (
        steps,
        f"{guide.steps - 1} steps are there, {guide.steps} were given: the last one, the anchor, is missing",
    )


def _checked(grid: Grid, picture: NDArray, guide: Guide, name: str) -> Grid:
    """A grid whose black band does grow, step by step; a photograph or a page does not."""
    if "black" not in grid.names or guide.lightens:
        return _with_unseen(grid)
    row = grid.names.index("black")
    profile = _row(picture, grid.bands[row].at_mm, grid.bands[row + 1].at_mm)
    middles = [(a.at_mm + b.at_mm) / 2 for a, b in zip(grid.steps, grid.steps[1:], strict=False)]
    levels = profile[[int(at / _SAMPLE_MM) for at in middles]]
    falls = np.maximum(0, -np.diff(levels)).sum()
    if falls > 0.35 * np.ptp(levels):
        raise ScanError(
            f"{name}: the black band goes up and down; this is no strip, or the band order is another"
        )
    return _with_unseen(grid)


def _with_unseen(grid: Grid) -> Grid:
    unseen = sum(not edge.seen for edge in grid.steps)
    if unseen:
        return replace(grid, notes=(*grid.notes, f"{unseen} edges are too faint to see: placed by spacing"))
    return grid
