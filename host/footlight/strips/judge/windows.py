"""L and U: the dose where black is full, and the dose where white is no longer clean; each with its interval.

L: black within 0.05 D of the plateau. U: a white band 0.02 D above its zero step, or its mottle, in excess of
the zero step, at the printer's limit, whichever comes first. All in stops from the present dose.
"""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from footlight.strips.judge import bootstrap, curve
from footlight.strips.judge.bound import Bound
from footlight.strips.measure.cells import WHITE_BANDS, Cell

FULL_WITHIN_D = 0.05
VEIL_D = 0.02
MOTTLE_LIMIT_D = 0.010
# What uneven scanner light leaves between cells after correction; measured on the simulated scanner only.
UNEVEN_D = 0.0010
_BEYOND_STOPS = 0.25
_TURNED_D = 0.012
# What the unknown shape between steps costs: of whole stops, with the square of their distance; at least.
_SHAPE_STOPS, _LEAST_SHAPE_STOPS = 0.025, 0.007
# Neither form turns back, so where the black does they both miss its top in the same way.
_TURNED_SHAPE_STOPS = 0.033
# Where black turns back, steps this near the top are already bent by it.
_TURNING_D = 0.015
# What makes up for blotches larger than blocks, found on the simulated papers.
_WIDER_VEIL, _WIDER_MOTTLE, _WIDER_BLACK = 1.75, 2.5, 1.1


@dataclass(frozen=True)
class Rules:
    """The printer's settings [D]."""

    full_within_d: float = FULL_WITHIN_D
    veil_d: float = VEIL_D
    mottle_limit_d: float = MOTTLE_LIMIT_D


@dataclass(frozen=True)
class Plateau:
    """The full black [D]: of the anchor, or of the steps where more light has turned it back.

    drop_d: how far the anchor lies below the fullest black of the steps [D].
    """

    density_d: NDArray
    drop_d: float


@dataclass(frozen=True)
class Window:
    """L and U, and what the fits gave. black: parameters of the form that fits; plateau_d, base_d [D]."""

    full: Bound
    clean: Bound
    plateau_d: float
    drop_d: float
    base_d: float
    black: tuple[float, float, float]
    block_tiles: int
    form: str = "hits"


def find(
    stops: NDArray,
    cells: dict[str, list[Cell]],
    rules: Rules,
    seed: int = 0,
    earlier_drop_d: float = 0.0,
) -> Window:
    """The window of a strip.

    stops: of each step [stops], −inf for the zero step, which comes first. cells: band → its cells, one per
    step, the anchor last. Raises KeyError where there is no black band; see `decision` for what then.
    """
    rng = np.random.default_rng(seed)
    black = [cell.tiles_d for cell in cells["black"]]
    side = bootstrap.block_side(black[1:])
    reps = np.stack([bootstrap.resample(tiles, side, rng)[0] for tiles in black])
    reps = _uneven(reps, rng).T
    reps = reps.mean(axis=0) + _WIDER_BLACK * (reps - reps.mean(axis=0))
    real = np.array([[cell.density_d for cell in cells["black"]]])
    full, fitted, plateau = _full(stops, np.vstack([real, reps]), rules, earlier_drop_d)
    clean = _clean(stops, cells, rules, rng)
    base = float(real[0, 0])
    return Window(
        full,
        clean,
        float(plateau.density_d[0]),
        plateau.drop_d,
        base,
        tuple(fitted.params[0].tolist()),
        side,
        fitted.form,
    )


def _uneven(reps: NDArray, rng: np.random.Generator) -> NDArray:
    return reps + rng.normal(0, UNEVEN_D, reps.shape)


def _plateau(density_d: NDArray, earlier_drop_d: float) -> Plateau:
    """Of replicates (B, n), the anchor last; row 0 is the strip itself."""
    steps, anchor = density_d[:, 1:-1], density_d[:, -1]
    top = int(steps[0].argmax())
    drop_d = float(steps[0, top] - anchor[0])
    if drop_d < _TURNED_D and earlier_drop_d < _TURNED_D:
        return Plateau(anchor, max(0.0, drop_d))
    inside = top < steps.shape[1] - 1 or earlier_drop_d < _TURNED_D
    return Plateau(_peak(steps, top) if inside else anchor + earlier_drop_d, drop_d)


def _peak(steps: NDArray, top: int) -> NDArray:
    """The fullest black by a cubic through the upper steps, replicate by replicate [D].

    A cubic through all steps near the top: the single highest one would be the one with the luckiest noise.
    """
    near = np.flatnonzero(steps[0] > steps[0, top] - 0.2)
    first = min(int(near[0]), max(0, steps.shape[1] - 4))
    place = np.arange(first, steps.shape[1]) - top
    cubic = np.polyfit(place, steps[:, first:].T, min(3, len(place) - 1))
    grid = np.linspace(max(place[0], -2), min(place[-1], 2), 41)
    return np.max(sum(c[:, None] * grid ** (len(cubic) - 1 - k) for k, c in enumerate(cubic)), axis=1)


def _full(stops, density_d, rules: Rules, earlier_drop_d: float):
    plateau = _plateau(density_d, earlier_drop_d)
    x = stops[1:-1]
    sigma = density_d[1:, 1:-1].std(axis=0)
    y = density_d[:, 1:-1]
    turned = plateau.drop_d >= _TURNED_D
    last = max(int(y[0].argmax()) + 1, min(4, len(x))) if turned else len(x)
    centre = float(x.mean())
    base = density_d[:, 0]
    sigma = np.where(plateau.density_d[0] - y[0] < _TURNING_D, 10.0, sigma) if turned else sigma
    shapes = [
        _crossed(
            form, x[:last] - centre, y[:, :last], sigma[:last], plateau.density_d, base, rules, x - centre
        )
        for form in curve.FORMS
    ]
    found, params, form = _mixed(shapes)
    coarse = _TURNED_SHAPE_STOPS if turned else _SHAPE_STOPS
    shape = math.hypot(coarse * float(np.median(np.diff(x))) ** 2, _LEAST_SHAPE_STOPS)
    found[1:] += np.random.default_rng(len(found)).normal(0, shape, len(found) - 1)
    return _bound(found + centre, "black"), _Fitted(form.name, _moved(params, centre)), plateau


@dataclass(frozen=True)
class _Fitted:
    """The form that fits best, and its parameters."""

    form: str
    params: NDArray


def _crossed(form: curve.Form, x, y, sigma, plateau_d, base_d, rules: Rules, every: NDArray):
    """(form, where full black is crossed, parameters, χ²) by one form of the curve."""
    params, misfit = curve.black(form, x, y, sigma, plateau_d, base_d)
    span = np.maximum(plateau_d - base_d, rules.full_within_d + 1e-3)
    level = form.inner(rules.full_within_d / span)
    at_level = params - np.stack([level, 0 * level, 0 * level], axis=1)
    found = curve.crossing(at_level, 0.0, every[0] - _BEYOND_STOPS, every[-1] + _BEYOND_STOPS)
    return form, found, params, misfit


def _mixed(shapes) -> tuple[NDArray, NDArray, curve.Form]:
    """Replicates of every form by how well each fits the strip: what the strip cannot tell stays open."""
    weights = np.exp(-0.5 * (np.array([misfit for *_, misfit in shapes]) - min(m for *_, m in shapes)))
    weights /= weights.sum()
    best, first, params, _ = shapes[int(weights.argmax())]
    count = len(first) - 1
    chosen = np.searchsorted(np.cumsum(weights), (np.arange(count) + 0.5) / count)
    mixed = np.stack([found for _, found, *_ in shapes])
    middle = mixed[:, 0] @ weights if np.isfinite(mixed[:, 0]).all() else first[0]
    return np.concatenate([[middle], mixed[:, 1:][chosen, np.arange(count)]]), params, best


def _moved(params: NDArray, centre: float) -> NDArray:
    """a + b·x + c·x² counted from the present dose in place of the strip's centre."""
    a, b, c = params.T
    return np.stack([a - b * centre + c * centre**2, b - 2 * c * centre, c], axis=1)


def _bound(found: NDArray, by: str) -> Bound:
    low, high = np.quantile(found[1:], [0.05, 0.95], method="closest_observation")
    return Bound(float(found[0]), float(min(low, found[0])), float(max(high, found[0])), by)


def _clean(stops, cells: dict[str, list[Cell]], rules: Rules, rng: np.random.Generator) -> Bound:
    # 'White + 2 stops' alone is clean for longer than the picture's whites: it sets no limit by itself.
    if "white" not in cells:
        return Bound(math.inf, math.inf, math.inf, "no white band")
    x = stops[1:-1]
    rows = []
    for band in WHITE_BANDS:
        if band in cells:
            rows += [(f"veil, {band}", v) for v in [_veil(x, cells[band], rules, rng)]]
            rows += [(f"mottle, {band}", m) for m in [_mottle(x, cells[band], rules, rng)]]
    every = np.stack([row for _, row in rows])
    return _bound(every.min(axis=0), rows[int(every[:, 0].argmin())][0])


def rising(stops: NDArray, cells: list[Cell], level_d: float, seed: int = 0) -> Bound:
    """The dose at which a band, its zero step first, is `level_d` [D] above that step."""
    rng = np.random.default_rng(seed)
    return _bound(_level(stops[1:], cells, level_d, rng), "density")


def _level(x: NDArray, cells: list[Cell], level_d: float, rng: np.random.Generator) -> NDArray:
    means, _ = _replicates(cells, 0, rng)
    means[1:] = _uneven(means[1:], rng)
    return _rise_to(x, means, _WIDER_VEIL, 0.05, level_d, 0.8, rng)


def _veil(x: NDArray, band: list[Cell], rules: Rules, rng: np.random.Generator) -> NDArray:
    return _level(x, band[:-1], rules.veil_d, rng)


def _mottle(x: NDArray, band: list[Cell], rules: Rules, rng: np.random.Generator) -> NDArray:
    variances, _ = _replicates(band[:-1], 1, rng)
    return _rise_to(x, variances, _WIDER_MOTTLE, 0.15, rules.mottle_limit_d**2, 1.6, rng)


def _replicates(cells: list[Cell], which: int, rng: np.random.Generator) -> tuple[NDArray, int]:
    """(B + 1, n) of means or variances of the steps of a band, the strip itself in row 0."""
    tiles = [cell.tiles_d for cell in cells]
    side = bootstrap.block_side(tiles[len(tiles) // 2 :])
    reps = np.stack([bootstrap.resample(field, side, rng)[which] for field in tiles]).T
    real = [cell.measured.mottle_d**2 if which else cell.density_d for cell in cells]
    return np.vstack([real, reps]), side


def _pooled(
    values: NDArray, wider: float, least: float, least_floor: float, rng: np.random.Generator
) -> tuple[NDArray, float, float]:
    """Rises above the zero step whose spread follows one law over all steps: (rises, floor, relative).

    A single cell holds few blotches, so its own spread is poorly known; spread / rise is pooled over the
    steps where the rise is plain. `wider` makes up for blotches larger than blocks.
    """
    rises = values[:, 1:] - values[:, :1]
    spread = values[1:].std(axis=0)
    floor = max(float(math.sqrt(2) * spread[0]), least_floor)
    plain = rises[0] > 4 * floor
    shares = (spread[1:][plain] / rises[0][plain]) ** 2
    relative = wider * max(least, float(np.sqrt(shares.mean()))) if plain.any() else 0.25
    return _spread_out(np.maximum(rises[0], 0), rises[1:].shape, floor, relative, rng), floor, relative


def _spread_out(
    rise: NDArray, shape: tuple[int, int], floor: float, relative: float, rng: np.random.Generator
) -> NDArray:
    """What a rise may truly be, in row 0 its median and a replicate a row; `relative` of it is uncertain.

    A field of few blotches mostly shows less than its paper's mean and now and then far more, as a variance
    from few values does. So the truth scatters about the rise in proportion, a little more above it.
    """
    middle = rise * (1 + relative**2 / 6)
    scatter = np.exp(math.sqrt(math.log1p(relative**2)) * rng.standard_normal(shape))
    return np.vstack([middle, middle * scatter + floor * rng.standard_normal(shape)])


def _rise_to(
    x: NDArray,
    values: NDArray,
    wider: float,
    least: float,
    threshold: float,
    slope: float,
    rng: np.random.Generator,
):
    rises, floor, relative = _pooled(values / threshold, wider, least, 0.03, rng)
    centre = float(x.mean())
    params = curve.rise(x - centre, rises, floor, relative, slope)
    found = curve.crossing(params, 0.0, x[0] - centre - _BEYOND_STOPS, x[-1] - centre + _BEYOND_STOPS)
    return found + centre
