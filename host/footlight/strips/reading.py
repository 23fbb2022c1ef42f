"""From a scan to advice: find, calibrate, measure, fit, decide."""

import math
import warnings
from dataclasses import dataclass, replace
from dataclasses import field as default

import numpy as np

from footlight.errors import field
from footlight.strips.errors import ScanError
from footlight.strips.find import across, by_hand, comb, grid, outline, tablet
from footlight.strips.find.place import Grid
from footlight.strips.judge import cause, soundness, summary, windows
from footlight.strips.judge.bound import Bound
from footlight.strips.judge.decision import NO_ANCHOR, Decision, clipped, decide, margin
from footlight.strips.measure import cell_measure
from footlight.strips.measure.cells import WHITE_BANDS, Cell
from footlight.strips.result import Reading
from footlight.strips.scan import border, calibration, overview, reduced, uneven
from footlight.strips.scan.scan import Scan


@dataclass(frozen=True)
class Doses:
    """present_s: what the light setup gives now [s]. totals_s: of every step, zero first, anchor last [s].

    least_s, most_s: bounds of the totals where a power cut hid a light [s]; empty: the totals are known.
    """

    present_s: float
    totals_s: tuple[float, ...]
    least_s: tuple[float, ...] = ()
    most_s: tuple[float, ...] = ()

    def stops(self) -> np.ndarray:
        """From the present dose [stops], −inf for zero."""
        return self._stops(self.totals_s)

    def bounds(self) -> list[np.ndarray]:
        """The same at the least and at the most that was given; none where nothing is hidden."""
        return [self._stops(totals) for totals in (self.least_s, self.most_s) if totals]

    def _stops(self, totals_s: tuple[float, ...]) -> np.ndarray:
        totals = np.array(totals_s)
        return np.where(totals > 0, np.log2(np.maximum(totals, 1e-9) / self.present_s), -np.inf)


@dataclass(frozen=True)
class Options:
    """How to read.

    tablet_d: densities of a tablet beside the strip [D]; patches: by hand. linear: codes are proportional to
    light. paper_d: density of the bare base, to tell veil from base; paper_blue_d: how much denser it is in
    blue than in green, to tell a warm base from stain [D]. rules: the printer's limits.
    repeatability_stops: measured from strip to strip. earlier_drop_d: how far an earlier strip's anchor fell
    back [D].
    """

    tablet_d: tuple[float, ...] = ()
    patches: tuple[tablet.Patch, ...] = ()
    linear: bool = False
    paper_d: float | None = None
    paper_blue_d: float | None = None
    rules: windows.Rules = default(default_factory=windows.Rules)
    repeatability_stops: float | None = None
    earlier_drop_d: float = 0.0
    seed: int = 0


# A scale carried so much further than its darkest patch would be an invention.
_MOST_BEYOND_D = 0.7
# Blacks beyond the darkest patch that are all one black may be the floor of a scanner that clips.
_FLOOR_BEYOND_D, _FLOOR_EVEN_D, _FLOOR_STEPS = 0.03, 0.002, 4


@dataclass(frozen=True)
class Measured:
    """A strip found and measured, before anything is concluded. scan: as it was worked on."""

    scan: Scan
    grid: Grid
    view: overview.Overview
    cells: dict[str, list[Cell]]
    scale: calibration.Calibration
    notes: tuple[str, ...]


@dataclass(frozen=True)
class Read:
    """A reading with what the picture of it needs."""

    reading: Reading
    grid: Grid
    view: overview.Overview
    cells: dict[str, list[Cell]]


def read(scan: Scan, doses: Doses, guide: grid.Guide, options: Options | None = None) -> Read:
    """Read a strip. Raises ScanError, one line, for what cannot be read."""
    options = options or Options()
    _check(doses, guide, scan.name)
    try:
        with np.errstate(all="ignore"), warnings.catch_warnings():
            warnings.simplefilter("ignore", RuntimeWarning)
            return _read(scan, doses, guide, options)
    except (ArithmeticError, IndexError, ValueError, np.linalg.LinAlgError) as error:
        # What is no strip may have no pixel where one is looked for: no number comes out of that.
        raise ScanError(
            f"{scan.name}: what was taken for a strip cannot be measured ({error}); lay strip and"
            f" tablet apart on"
            f" an even sheet, and check {field('ppi')}"
        ) from error


def _read(scan: Scan, doses: Doses, guide: grid.Guide, options: Options) -> Read:
    found = measured(scan, guide, options)
    cells = found.cells
    window, decision = _decided(doses, len(found.grid.steps) - 1, cells, found.scale, guide, options)
    signs = summary.signs(
        cells, window, options.paper_d, options.paper_blue_d, wanting=decision.dose_stops is None
    )
    reading = summary.reading(
        found.scan, doses.present_s, doses.totals_s, found.grid, cells, found.scale, window, options.rules,
        decision, cause.causes(signs), (*found.notes, *cause.doubts(signs)),
    )  # fmt: skip
    return Read(reading, found.grid, found.view, cells)


def measured(scan: Scan, guide: grid.Guide, options: Options) -> Measured:
    """Find the strip, calibrate, measure its cells. Raises ScanError, one line, for what is no strip."""
    scan = reduced.to_working(scan)
    base = calibration.by_encoding(scan, options.linear)
    view = overview.make(scan, base.tables[len(base.tables) // 2])
    clear = border.painted_over(view)
    outlines = outline.find(clear, scan.name, bool(guide.corners_mm))
    patches = comb.find(view, outlines.pieces, options.tablet_d, scan.name) if options.tablet_d else None
    if guide.corners_mm:
        place = by_hand.place_of(guide.corners_mm, scan.name)
    else:
        place = outlines.strip(clear, patches.piece if patches else None)
    if not guide.corners_mm and outlines.another(place, patches.piece if patches else None):
        raise ScanError(f"{scan.name}: more than one piece of a strip's size is seen; scan one strip alone")
    found = grid.find(view, place, guide, scan.name)
    surface = uneven.from_background(clear, outlines.background(clear, place))
    scale = _scale(scan, patches, options, base, surface)
    cells, pictures = across.plain_only(cell_measure.cells(scan, found, scale, surface), scan.name)
    _refuse_clipped(cells, scan.name)
    _refuse_far_outside(cells, scale, scan.name)
    soundness.check(cells, scan.name, scale.uncertainty_d)
    framed = () if clear is view else (border.NOTE,)
    uneven_light = (surface.note,) if surface.note else ()
    notes = (*scan.notes, *framed, *found.notes, *scale.notes, *uneven_light, *pictures)
    return Measured(scan, found, view, cells, scale, notes + summary.notes(scan, cells, scale))


def _check(doses: Doses, guide: grid.Guide, name: str) -> None:
    if len(doses.totals_s) != guide.steps or doses.totals_s[0] != 0:
        raise ScanError(
            f"{name}: {len(doses.totals_s)} doses for {guide.steps} steps; one for each, 0 for zero first"
        )
    if len(doses.totals_s) < 5:
        raise ScanError(
            f"{name}: {len(doses.totals_s)} steps; a zero, an anchor and three or more between are needed"
        )


def _scale(scan: Scan, patches: comb.Comb | None, options: Options, base, surface):
    if patches is not None:
        return tablet.by_tablet(scan, patches, options.tablet_d, base, surface)
    if options.patches:
        return tablet.by_hand(scan, options.patches, base, surface)
    return base


def _refuse_clipped(cells: dict[str, list[Cell]], name: str) -> None:
    every = [cell.clipped for band in cells.values() for cell in band]
    if np.median(every) > 0.5:
        raise ScanError(f"{name}: most of the strip is clipped; scan without automatic contrast, in 16 bits")


def _refuse_far_outside(cells: dict[str, list[Cell]], scale: calibration.Calibration, name: str) -> None:
    darkest = max(cell.density_d for band in cells.values() for cell in band)
    if scale.range_d is not None and darkest > scale.range_d[1] + _MOST_BEYOND_D:
        raise ScanError(
            f"{name}: the darkest patch has {scale.range_d[1]:.2f} D and the strip about {darkest:.1f} D,"
            " too far beyond it to be calibrated; give the densities of darker patches, or none"
        )


def _decided(
    doses: Doses, steps: int, cells, scale: calibration.Calibration, guide: grid.Guide, options: Options
) -> tuple[windows.Window | None, Decision]:
    """The window by the bands there are, and the decision; a strip whose anchor is missing has no plateau."""
    margin_stops = margin(options.repeatability_stops)
    if "black" not in cells:
        return None, Decision(None, "black nowhere", margin_stops, None, None)
    window, *ends = (
        windows.find(stops[:steps], cells, options.rules, options.seed, options.earlier_drop_d)
        for stops in (doses.stops(), *doses.bounds())
    )
    window = _spanning(window, ends)
    if steps < guide.steps:
        window = _without_anchor(window)
    if which := _clipped(cells):
        return _hidden(window, which), clipped(which, margin_stops)
    if _at_floor(cells["black"], scale):
        return _hidden(window, "black"), Decision(None, "black at floor", margin_stops, None, None)
    stops = doses.stops()[:steps]
    pitch = float(np.median(np.diff(stops[1:-1])))
    middle = float(np.mean(stops[[1, -2]]))
    return window, decide(window.full, window.clean, margin_stops, pitch, middle)


def _clipped(cells: dict[str, list[Cell]]) -> str:
    """Which end of the scale is clipped where it matters: at full black, or in a white."""
    if cells["black"][-1].is_clipped:
        return "black"
    whites = [cell for band in WHITE_BANDS for cell in cells.get(band, ())]
    return "white" if any(cell.is_clipped for cell in whites) else ""


def _at_floor(black: list[Cell], scale: calibration.Calibration) -> bool:
    """Are several steps one black that no patch of the tablet vouches for?"""
    values = np.array([cell.density_d for cell in black])
    alike = int((values > values.max() - _FLOOR_EVEN_D).sum())
    return (
        scale.range_d is not None
        and values.max() > scale.range_d[1] + _FLOOR_BEYOND_D
        and alike >= _FLOOR_STEPS
    )


def _hidden(window: windows.Window, which: str) -> windows.Window:
    """The limit that the clipping hides is not known."""
    nowhere = Bound(math.inf, -math.inf, math.inf, f"{which}, clipped")
    return replace(window, full=nowhere) if which == "black" else replace(window, clean=nowhere)


def _spanning(window: windows.Window, ends: list[windows.Window]) -> windows.Window:
    """L and U with intervals that hold whatever light was really given between its bounds."""
    if not ends:
        return window
    full, clean = (
        Bound(
            middle.stops,
            min(bound.low for bound in (middle, *others)),
            max(bound.high for bound in (middle, *others)),
            middle.by,
        )
        for middle, others in (
            (window.full, [end.full for end in ends]),
            (window.clean, [end.clean for end in ends]),
        )
    )
    return replace(window, full=full, clean=clean)


def _without_anchor(window: windows.Window) -> windows.Window:
    """Without an anchor the plateau is only the last step: L may lie higher than it seems."""
    full = window.full
    return replace(window, full=Bound(full.stops, full.low, math.inf, NO_ANCHOR))
