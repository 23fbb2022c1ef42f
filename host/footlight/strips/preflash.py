"""Reading the two pre-flash strips: where paper begins to see, and the largest flash that keeps the black.

The quick strip went through first developer and fix only, so flash darkens it: its threshold is the flash
that is 0.04 D above none. The deciding strip had one shadow scale across all its flashes and the full
reversal: flash lightens it, and costs black. The rules are those of `light.preflash`, with the scan's doubt
held against each flash.
"""

import math
from dataclasses import dataclass

import msgspec
import numpy as np

from footlight.errors import field
from footlight.light import preflash
from footlight.quantities import format_seconds
from footlight.strips import reading
from footlight.strips.errors import ScanError
from footlight.strips.find import grid
from footlight.strips.find.place import Grid
from footlight.strips.judge import bootstrap, windows
from footlight.strips.judge.bound import Bound
from footlight.strips.measure.cells import Cell
from footlight.strips.result import Taken
from footlight.strips.scan import overview
from footlight.strips.scan.scan import Scan

VERSION = 1
LEAST_FLASHES = 3
_LEAST_RISE_D = 0.06
_LEAST_FALL_D = 0.02
_ONE_SIDED_95 = 1.645


class FlashBand(msgspec.Struct, frozen=True):
    """One flash: its light [s], and density and uncertainty of each band [D]."""

    flash_s: float
    density_d: tuple[float, ...]
    uncertainty_d: tuple[float, ...]


class FlashReading(msgspec.Struct, frozen=True):
    """A pre-flash strip, read. kind: threshold or bands. low_s, high_s: 90 % interval of the threshold [s].

    seconds: the flash to give; null: none. words: a sentence each.
    """

    version: int
    kind: str
    scan: str
    ppi: float
    calibration: str
    bands: tuple[str, ...]
    flashes: tuple[FlashBand, ...]
    seconds: float | None
    threshold_s: float | None
    low_s: float | None
    high_s: float | None
    words: tuple[str, ...]
    notes: tuple[str, ...]
    taken: Taken | None = None


@dataclass(frozen=True)
class FlashRead:
    """A reading with what the picture of it needs. curves: band → its cells, in the order of the flashes."""

    reading: FlashReading
    grid: Grid
    view: overview.Overview


def threshold(
    scan: Scan,
    flashes_s: tuple[float, ...],
    options: reading.Options,
    edges_mm: tuple[float, ...] = (),
    above_d: float = preflash.THRESHOLD_D,
) -> FlashRead:
    """Read the quick strip. flashes_s: of every step, 0 first [s]. Raises ScanError, one line."""
    _check(flashes_s, scan.name)
    guide = grid.Guide(len(flashes_s), ("flash",), edges_mm, least_d=_LEAST_RISE_D)
    found = reading.measured(scan, guide, options)
    cells = found.cells["flash"]
    _all_there(found, flashes_s)
    stops = np.concatenate([[-math.inf], np.log2(flashes_s[1:])])
    at = windows.rising(stops, cells, above_d, options.seed)
    limits = tuple(2**value if math.isfinite(value) else None for value in (at.stops, at.low, at.high))
    seconds = limits[1] if limits[0] is not None else None
    return _read("threshold", found, flashes_s, ("flash",), seconds, limits, _threshold_words(at, flashes_s))


def _threshold_words(at: Bound, flashes_s: tuple[float, ...]) -> tuple[str, ...]:
    if at.stops == math.inf:
        more = format_seconds(4 * flashes_s[-1])
        return (f"No flash is seen on this strip: make one about {more}, or open the lens.",)
    if at.stops == -math.inf:
        return (
            "The smallest flash is seen already: make a strip about"
            f" {format_seconds(flashes_s[1] / 4)}, or stop down.",
        )
    seen, low, high = (format_seconds(2**value) if math.isfinite(value) else "beyond the strip" for value in
                       (at.stops, at.low, at.high))  # fmt: skip
    return (
        f"Paper begins to see at {seen} ({low} to {high}).",
        f"Give {low} at most, which it surely does not see, until the deciding strip says what more is worth:"
        f" flash bands about {seen}.",
    )


def bands(
    scan: Scan,
    flashes_s: tuple[float, ...],
    names: tuple[str, ...],
    options: reading.Options,
    edges_mm: tuple[float, ...] = (),
    most_loss_d: float = preflash.MOST_LOSS_D,
    least_gain_d: float = preflash.LEAST_GAIN_D,
) -> FlashRead:
    """Read the deciding strip. names: of its bands, darkest first: black, darker, lighter, and others.

    Raises ScanError, one line, for no such strip.
    """
    _check(flashes_s, scan.name)
    guide = grid.Guide(len(flashes_s), names, edges_mm, lightens=True, least_d=_LEAST_FALL_D)
    found = reading.measured(scan, guide, options)
    _all_there(found, flashes_s)
    plain = preflash.decide(_trials(found.cells, flashes_s, 0.0), most_loss_d, least_gain_d)
    sure = preflash.decide(_trials(found.cells, flashes_s, _ONE_SIDED_95), most_loss_d, least_gain_d)
    chosen = sure.chosen.flash_s
    words = [f"Surely good: {sure.summary}."]
    if chosen != plain.chosen.flash_s:
        words = [
            f"Surely good: {format_seconds(chosen)}." if chosen else "No flash is surely worth its black.",
            f"As measured, without the scan's doubt: {plain.summary}.",
        ]
    return _read("bands", found, flashes_s, names, chosen or None, (None, None, None), tuple(words))


def _trials(
    cells: dict[str, list[Cell]], flashes_s: tuple[float, ...], doubts: float
) -> list[preflash.Trial]:
    """Every flash with `doubts` standard errors against it: more black lost, tones less far apart."""
    errors = {name: [_error(cell) for cell in row] for name, row in cells.items()}
    trials = []
    for place, flash_s in enumerate(flashes_s):
        black, darker, lighter = (cells[name][place].density_d for name in ("black", "darker", "lighter"))
        of_black = math.hypot(errors["black"][place], errors["black"][0]) if place else 0.0
        of_tones = math.hypot(errors["darker"][place], errors["lighter"][place]) if place else 0.0
        trials.append(preflash.Trial(flash_s, black - doubts * of_black, darker - doubts * of_tones, lighter))
    return trials


def _error(cell: Cell) -> float:
    """Standard error of a cell's mean [D]: its blotches, and what uneven light leaves."""
    side = bootstrap.block_side([cell.tiles_d])
    return math.hypot(bootstrap.standard_error(cell.tiles_d, side), windows.UNEVEN_D)


def _check(flashes_s: tuple[float, ...], name: str) -> None:
    if len(flashes_s) < LEAST_FLASHES or flashes_s[0] != 0 or list(flashes_s) != sorted(set(flashes_s)):
        raise ScanError(f"{name}: a pre-flash strip has a step without flash and two or more rising ones")


def _all_there(found: reading.Measured, flashes_s: tuple[float, ...]) -> None:
    if len(found.grid.steps) - 1 < len(flashes_s):
        raise ScanError(
            f"{found.scan.name}: {len(found.grid.steps) - 1} steps are seen, {len(flashes_s)} were given;"
            f" check the number, or give the edges by hand: {field('edges')}"
        )


def _read(kind: str, found: reading.Measured, flashes_s, names, seconds, limits, words) -> FlashRead:
    told = FlashReading(
        version=VERSION,
        kind=kind,
        scan=found.scan.name,
        ppi=round(found.scan.ppi, 2),
        calibration=found.scale.how,
        bands=names,
        flashes=tuple(_band(found.cells, names, place, flash_s) for place, flash_s in enumerate(flashes_s)),
        seconds=None if seconds is None else round(seconds, 3),
        threshold_s=None if limits[0] is None else round(limits[0], 3),
        low_s=None if limits[1] is None else round(limits[1], 3),
        high_s=None if limits[2] is None else round(limits[2], 3),
        words=words,
        notes=found.notes,
    )
    return FlashRead(told, found.grid, found.view)


def _band(cells: dict[str, list[Cell]], names: tuple[str, ...], place: int, flash_s: float) -> FlashBand:
    column = [cells[name][place] for name in names]
    return FlashBand(
        round(flash_s, 4),
        tuple(round(cell.density_d, 4) for cell in column),
        tuple(round(_error(cell), 4) for cell in column),
    )
