"""Gather what was measured into the plain result, with the notes that a reader should have."""

import math

import numpy as np

from footlight.strips import result
from footlight.strips.find.place import Grid
from footlight.strips.judge import bootstrap, words
from footlight.strips.judge.bound import Bound
from footlight.strips.judge.cause import CONFOUNDERS, DRY, Signs
from footlight.strips.judge.decision import NEXT_STEPS, Decision
from footlight.strips.judge.windows import Rules, Window
from footlight.strips.measure import mottle
from footlight.strips.measure.cells import WHITE_BANDS, Cell
from footlight.strips.scan.calibration import Calibration
from footlight.strips.scan.scan import Scan

_COARSE_FROM_D = 1.5
_PLAIN_SHARE = 0.6
_STANDARD_TILES = 100
_MOTTLED_D = 0.005  # of plain paper at zero: 0.0011 D at most on simulated papers


def notes(scan: Scan, cells: dict[str, list[Cell]], scale: Calibration) -> tuple[str, ...]:
    """What the reader should know about this scan, a sentence each."""
    every = [cell for band in cells.values() for cell in band]
    found = [
        _clipped(every),
        _coarse(scan, every),
        _outside(scale, every),
        _tiles(every),
        _drops(every),
        _plain(every),
        _mottled_zero(cells),
    ]
    return tuple(note for note in found if note)


def _clipped(every: list[Cell]) -> str:
    bad = [cell for cell in every if cell.is_clipped]
    return f"{len(bad)} cells are clipped at an end of the scale, from {_name(bad[0])} on" if bad else ""


def _coarse(scan: Scan, every: list[Cell]) -> str:
    darkest = max(cell.density_d for cell in every)
    if scan.bits > 8 or darkest < _COARSE_FROM_D:
        return ""
    # IEC 61966-2-1 near code c: one code is this much density.
    light = 10**-darkest
    code = 255 * (1.055 * light ** (1 / 2.4) - 0.055) if light > 0.0031308 else 255 * 12.92 * light
    step = 2.4 * 0.4343 / (code + 0.055 * 255)
    return f"8 bits are coarse in the blacks: one code is {step:.3f} D at {darkest:.2f} D; scan in 16 bits"


def _outside(scale: Calibration, every: list[Cell]) -> str:
    if scale.range_d is None:
        return ""
    low, high = scale.range_d
    bad = [cell for cell in every if not low - 0.03 <= cell.density_d <= high + 0.03]
    if not bad:
        return ""
    return f"{len(bad)} cells lie outside the patches' {low:.2f}–{high:.2f} D: extended, ± 0.1 D"


def _tiles(every: list[Cell]) -> str:
    fewest = min(cell.measured.tiles for cell in every)
    said = f"mottle is taken over {fewest} tiles a cell or more, not the standard's field of 100"
    if fewest >= _STANDARD_TILES:
        return ""
    return said if fewest >= mottle.LEAST_TILES else f"{said}, and fewer than 60: it is uncertain"


def _drops(every: list[Cell]) -> str:
    count = sum(cell.drops for cell in every)
    return f"drop marks and specks left out: {count}" if count else ""


def _plain(every: list[Cell]) -> str:
    poor = [cell for cell in every if cell.plain_share < _PLAIN_SHARE]
    if not poor:
        return ""
    least = min(cell.plain_share for cell in poor)
    return f"{len(poor)} cells are not plain and were measured only where they are, down to {least:.0%} of it"


def _mottled_zero(cells: dict[str, list[Cell]]) -> str:
    for band in WHITE_BANDS:
        own_d = cells[band][0].measured.mottle_d if band in cells else 0.0
        if own_d > _MOTTLED_D:
            return (
                f"{band} is mottled by {own_d:.3f} D before any second exposure: silver that the bleach left,"
                " or a picture lies there; what its steps have beyond that is less sure"
            )
    return ""


def _name(cell: Cell) -> str:
    return f"{cell.band}, step {cell.step}"


def signs(
    cells: dict[str, list[Cell]],
    window: Window | None,
    paper_d: float | None,
    paper_blue_d: float | None,
    wanting: bool,
) -> Signs:
    """What the bands show, for `cause.causes`. wanting: no dose is safe, so rising whites need a cause."""
    black, white, white2 = (cells.get(name) for name in ("black", "white", "white2"))
    first = white[0] if white else None
    blue = first.channels_d[2] - first.channels_d[1] if first and len(first.channels_d) == 3 else None
    return Signs(
        anchor_d=max(cell.density_d for cell in black) if black else None,
        zero_white_d=first.density_d if first else None,
        zero_white2_d=white2[0].density_d if white2 else None,
        zero_black_d=black[0].density_d if black else None,
        rise_d=white[-2].density_d - white[0].density_d if white and wanting else None,
        rise2_d=white2[-2].density_d - white2[0].density_d if white2 else None,
        blue_d=blue,
        paper_blue_d=paper_blue_d,
        paper_d=paper_d,
        turned_d=window.drop_d if window else 0.0,
    )


def reading(
    scan: Scan,
    present_s: float,
    totals_s: tuple[float, ...],
    grid: Grid,
    cells: dict[str, list[Cell]],
    scale: Calibration,
    window: Window | None,
    rules: Rules,
    decision: Decision,
    causes: tuple[str, ...],
    notes: tuple[str, ...],
) -> result.Reading:
    """Everything as plain values."""
    nowhere = Bound(math.inf, math.inf, math.inf, "not seen")
    full, clean = (window.full, window.clean) if window else (nowhere, nowhere)
    return result.Reading(
        version=result.VERSION,
        scan=scan.name,
        ppi=round(scan.ppi, 2),
        bits=scan.bits,
        calibration=scale.how,
        present_s=present_s,
        found=_found(grid),
        steps=tuple(_steps(cells, totals_s, present_s, scale)),
        full=_interval(full),
        clean=_interval(clean),
        plateau_d=_rounded(window.plateau_d) if window else None,
        drop_d=_rounded(window.drop_d) if window else 0.0,
        curve=window.black if window else None,
        base_d=_rounded(window.base_d) if window else 0.0,
        limits_d=(rules.full_within_d, rules.veil_d, rules.mottle_limit_d),
        advice=_advice(decision, full, clean, present_s, causes),
        notes=notes,
        form=window.form if window else "hits",
    )


def _advice(decision: Decision, full: Bound, clean: Bound, present_s: float, causes: tuple[str, ...]):
    dose = decision.dose_stops
    verdict: result.Verdict = "advice" if dose is not None else _VERDICTS.get(decision.reason, "no safe dose")
    return result.Advice(
        verdict,
        None if dose is None else _rounded(dose),
        None if dose is None else round(present_s * 2**dose, 3),
        _rounded(decision.margin_stops),
        (*words.advice(decision, full, clean, present_s), CONFOUNDERS, DRY),
        causes,
        None if decision.next_centre_stops is None else _rounded(decision.next_centre_stops),
        None if decision.next_centre_stops is None else decision.next_step_stops,
        None if decision.next_centre_stops is None else NEXT_STEPS,
    )


_VERDICTS: dict[str, result.Verdict] = {
    "no white band": "white not seen",
    "black everywhere": "not seen",
    "black nowhere": "not seen",
    "no anchor": "not seen",
    "black clipped": "not seen",
    "black at floor": "not seen",
    "white clipped": "not seen",
}


def _interval(bound: Bound) -> result.Interval:
    beyond = "above" if bound.stops == math.inf else "below" if bound.stops == -math.inf else ""
    values = (_rounded(v) if math.isfinite(v) else None for v in (bound.stops, bound.low, bound.high))
    return result.Interval(*values, by=bound.by, beyond=beyond)


def _rounded(value: float) -> float:
    return round(float(value), 4)


def _found(grid: Grid) -> result.Found:
    place = grid.place
    corners = [(0, 0), (place.length_mm, 0), (place.length_mm, place.width_mm), (0, place.width_mm)]
    at = [place.at(along, across) for along, across in corners]
    return result.Found(
        tuple((round(float(x), 2), round(float(y), 2)) for x, y in at),
        tuple(round(edge.at_mm, 2) for edge in grid.steps),
        tuple(edge.seen for edge in grid.steps),
        tuple(round(edge.at_mm, 2) for edge in grid.bands),
        grid.names,
        round(place.skew_deg, 2),
    )


def _steps(cells: dict[str, list[Cell]], totals_s: tuple[float, ...], present_s: float, scale: Calibration):
    for band, row in cells.items():
        side = bootstrap.block_side([cell.tiles_d for cell in row[1:]])
        for cell in row:
            yield _step(band, cell, row[0], totals_s[cell.step], present_s, side, scale)


def _step(band: str, cell: Cell, zero: Cell, dose_s: float, present_s: float, side: int, scale: Calibration):
    measured = cell.measured
    error = math.hypot(bootstrap.standard_error(cell.tiles_d, side), scale.uncertainty_d)
    return result.Step(
        band=band,
        step=cell.step,
        dose_s=round(dose_s, 4),
        dose_stops=_rounded(math.log2(dose_s / present_s)) if dose_s > 0 else None,
        density_d=_rounded(cell.density_d),
        spread_d=_rounded(float(np.nanstd(cell.tiles_d))),
        uncertainty_d=_rounded(error),
        graininess_d=_rounded(measured.graininess_d),
        mottle_d=_rounded(measured.mottle_d),
        excess_mottle_d=_rounded(mottle.excess(measured.mottle_d, zero.measured.mottle_d)),
        coarse_d=None if math.isnan(measured.coarse_d) else _rounded(measured.coarse_d),
        tiles=measured.tiles,
        plain_share=_rounded(cell.plain_share),
        drops=cell.drops,
        clipped_share=_rounded(cell.clipped),
        channels_d=tuple(_rounded(value) for value in cell.channels_d),
    )
