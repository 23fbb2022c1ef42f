"""What is told as ±, held against draws of what is not known: laws and doubts as the pages say them.

No sum of the code is used: square law and (f-number)² exact; Schwarzschild's law t = t0·2^(S/p); the figures
that `light tolerances` and `camera tolerances` print; propagation by drawing, JCGM 101:2008 §7.
`docs/make_uncertainty.py` makes the table of them.
"""

import json
import math
import shlex
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import numpy as np
from click.testing import CliRunner
from numpy.typing import NDArray

from footlight.cli.main import group

DRAWS = 1_000_000
LEAST, MOST = 0.66, 0.70
Numbers = NDArray[np.float64]
Rng = np.random.Generator
F11 = 2**3.5  # engraved stops are powers of √2 (ISO 517)
HEIGHT_MM, SCALE_MM, STOP, LENS, BRIDGE, ND_D, DEAD_S, METER = 10, 1, 0.07, 0.3, 1 / 6, 0.02, 0.01, 0.1
READING, INDEX, DRAW_MM, DIAMETER_MM, SIZE = 1 / 6, 1 / 6, 2, 0.3, 0.02


@dataclass(frozen=True)
class Case:
    """A command; what it tells as (value, ±) of its JSON; draws of the truth, in the same unit."""

    words: str
    told: Callable[[Any], tuple[float, float]]
    truth: Callable[[Rng, int, Any], Numbers]
    unit: str = "stop"


def told(case: Case) -> Any:
    """What the command prints for scripts."""
    result = CliRunner().invoke(group, [*shlex.split(case.words), "--json"], catch_exceptions=False)
    assert result.exit_code == 0, result.output
    return json.loads(result.stdout)


def share_within(case: Case, draws: int = DRAWS, seed: int = 13) -> tuple[float, float, float]:
    """(share of draws inside, ±, bias): of the truth about what is told."""
    answer = told(case)
    value, half = case.told(answer)
    off = case.truth(np.random.default_rng(seed), draws, answer) - value
    return float(np.mean(np.abs(off) < half)), half, float(np.mean(off))


def _exponent(rng: Rng, n: int, p: tuple[float, float] | None) -> Numbers:
    """Anywhere from 0.8 to 1.0 while it is not measured."""
    return rng.uniform(0.8, 1.0, n) if p is None else rng.normal(*p, n)


def heights(rng: Rng, n: int, low: float, high: float) -> Numbers:
    """Stops that the light loses from one height to another on one scale."""
    begins = rng.normal(0, HEIGHT_MM, n)
    ends = [height + begins + rng.normal(0, SCALE_MM, n) for height in (low, high)]
    return 2 * np.log2(ends[1] / ends[0])


def stops(rng: Rng, n: int, at: float, to: float) -> Numbers:
    """Stops from one engraved stop to another, each a little off."""
    return 2 * math.log2(to / at) + rng.normal(0, STOP, n) + rng.normal(0, STOP, n)


def needed(rng: Rng, seconds: float, dimmer: Numbers, p: tuple[float, float] | None = None) -> Numbers:
    """log2 of the time [s] that a light dimmer by so many stops needs; one dead time is in both times."""
    n = len(dimmer)
    dead_s = rng.normal(0, DEAD_S, n)
    return np.log2((seconds - dead_s) * 2 ** (dimmer / _exponent(rng, n, p)) + dead_s)


def _of(answer: dict[str, Any]) -> tuple[float, float]:
    return math.log2(answer["seconds"]), answer["uncertainty"]["stops"]


def _first(answer: dict[str, Any]) -> tuple[float, float]:
    return _of(answer["answers"][0])


def _last(answer: dict[str, Any]) -> tuple[float, float]:
    return _of(answer["answers"][-1])


def _number(text: str) -> float:
    """An engraved stop: whole and half stops, else the nearest third, as a power of √2."""
    return 2 ** (round(6 * math.log2(float(text.removeprefix("f/")))) / 6)


def _kept_seconds(rng: Rng, n: int, answer: Any) -> Numbers:
    to = _number(answer["answers"][0]["stop"])
    return needed(rng, 6, stops(rng, n, F11, to) + heights(rng, n, 620, 800))


def _dose(rng: Rng, n: int, seconds: float, bridge: float) -> Numbers:
    return math.log2(seconds) + rng.normal(0, METER, n) + rng.normal(0, bridge, n)


def _datum(rng: Rng, n: int, answer: Any) -> Numbers:
    low, high = (height + rng.normal(0, 1, n) for height in (400, 800))
    k = np.sqrt(48 / 12.9 * 2 ** rng.normal(0, 0.05, n))
    return (high - k * low) / (k - 1)


def _dead_ms(rng: Rng, n: int, answer: Any) -> Numbers:
    """The long exposure's T − δ, matched to 0.03 stop, is ten times 1.05 s − δ."""
    off = 2 ** rng.normal(0, 0.03, n)
    return 1000 * (10 * 1.05 - 10 * off) / (10 - off)


def camera(
    metered: Callable[[Rng, int], Numbers | float], start_s: float, p: tuple[float, float] | None = None
) -> Callable[[Rng, int, Any], Numbers]:
    """log2 of a time of `start_s` [s] by the meter, beyond one second with long exposures."""

    def truth(rng: Rng, n: int, answer: Any) -> Numbers:
        log_s = math.log2(start_s) + metered(rng, n) + rng.normal(0, math.hypot(READING, INDEX, STOP), n)
        return np.where(log_s > 0, log_s / _exponent(rng, n, p), log_s)

    return truth


def _draw(focal_mm: float, draw_mm: float) -> Callable[[Rng, int], Numbers]:
    return lambda rng, n: 2 * np.log2((draw_mm + rng.normal(0, DRAW_MM, n)) / focal_mm)


def _opening(rng: Rng, n: int, answer: Any) -> Numbers:
    true = (300 + rng.normal(0, DRAW_MM, n)) / (13.6 + rng.normal(0, DIAMETER_MM, n))
    return 2 * np.log2(true)


CASES = (
    Case('light time "6 s, 620 mm, f/11" "800 mm"', _last,
         lambda rng, n, _: needed(rng, 6, heights(rng, n, 620, 800))),
    Case('light time "6 s, 620 mm, f/11" "800 mm" --clicks whole', _first, _kept_seconds),
    Case('light time "10 s, 400 mm, f/8" "600 mm, f/11"', _last,
         lambda rng, n, _: needed(rng, 10, stops(rng, n, 8, F11) + heights(rng, n, 400, 600))),
    Case('light time "10 s, 400 mm, f/8" "600 mm, f/11" --p 0.93 --p-off 0.03', _last,
         lambda rng, n, _: needed(rng, 10, stops(rng, n, 8, F11) + heights(rng, n, 400, 600), (0.93, 0.03))),
    Case('light time "6 s, 500 mm, f/11" "1000 mm"', _last,
         lambda rng, n, _: needed(rng, 6, heights(rng, n, 500, 1000))),
    Case('light time "6 s, 800 mm, f/11" "400 mm" --p 1', _last,
         lambda rng, n, _: needed(rng, 6, heights(rng, n, 800, 400), (1.0, 0.02))),
    Case('light time "12 s, 620 mm, f/16" "f/8"', _last,
         lambda rng, n, _: needed(rng, 12, stops(rng, n, 16, 8))),
    Case('light time "6 s, 620 mm, f/11" "nd 0.6"', _last,
         lambda rng, n, _: needed(rng, 6, rng.normal(0.6, ND_D, n) * math.log2(10))),
    Case('light time "6 s, 620 mm, f/11, lens 50 mm" "lens 80 mm"', _last,
         lambda rng, n, _: needed(rng, 6, 2 * math.log2(50 / 80) + rng.normal(0, LENS, n))),
    Case('light time "6 s, 620 mm, f/11" "filter yellow" --bridge "1 1/3 stop"', _last,
         lambda rng, n, _: needed(rng, 6, rng.normal(4 / 3, BRIDGE, n))),
    Case('light time "2 s, 900 mm" "1500 mm" --more "1/3 stop"', _last,
         lambda rng, n, _: needed(rng, 2, heights(rng, n, 900, 1500)) + 1 / 3),
    Case('light stop "6 s, 620 mm, f/11" "620 mm" --for "24 s"', _of,
         lambda rng, n, answer: needed(rng, 6, stops(rng, n, F11, _number(answer["stop"])))),
    Case('light height "6 s, 620 mm, f/11" --for "12 s"', _of,
         lambda rng, n, answer: needed(rng, 6, heights(rng, n, 620, answer["height_mm"]))),
    Case('light given "6 s, 620 mm, f/11" "900 mm" "8 s"', lambda answer: _of(answer["needed"]),
         lambda rng, n, _: needed(rng, 6, heights(rng, n, 620, 900))),
    Case('light bigger "6 s, 433 mm, f/11" 4x5 8x10', _last,
         lambda rng, n, _: needed(rng, 6, heights(rng, n, 433, 866))),
    Case('light dose "6 s, 12 lx" "8.5 lx"', _of, lambda rng, n, _: _dose(rng, n, 6 * 12 / 8.5, 0)),
    Case('light dose "72 lx s" "30 lx, lamp bulb" --bridge "60 lx s" "90 lx s, lamp bulb"', _of,
         lambda rng, n, _: _dose(rng, n, 72 * 1.5 / 30, BRIDGE)),
    Case('light datum "400 mm, 48 lx" "800 mm, 12.9 lx"',
         lambda answer: (answer["add_mm"], answer["uncertainty_mm"]), _datum, "mm"),
    Case('light dead-time "10 s" "10 x 1.05 s"',
         lambda answer: (answer["dead_ms"], answer["uncertainty_ms"]), _dead_ms, "ms"),
    Case('camera time "EV 12" f/22 --ei 4', _of, camera(lambda rng, n: 0.0, 3.125)),
    Case('camera time "EV 8" f/22 --ei 4 --lens "150 mm" --draw "225 mm"', _of,
         camera(_draw(150, 225), 50.0)),
    Case('camera time "EV 8" f/22 --ei 4 --p 0.9', _of, camera(lambda rng, n: 0.0, 50.0, (0.9, 0.02))),
    Case('camera time "EV 14" f/8 --ei 4', _of, camera(lambda rng, n: 0.0, 64 * 100 / (4 * 2**14))),
    Case('camera bellows --lens "150 mm" --draw "300 mm"',
         lambda answer: (answer["stops"], answer["uncertainty_stops"]),
         lambda rng, n, _: _draw(150, 300)(rng, n)),
    Case('camera bellows --image "8 in" --object "12 in"',
         lambda answer: (answer["stops"], answer["uncertainty_stops"]),
         lambda rng, n, _: 2 * np.log2(1 + 2 / 3 * (1 + rng.normal(0, SIZE, n)))),
    Case('camera opening "150 mm" "13.6 mm" --draw "300 mm"',
         lambda answer: (2 * math.log2(answer["true_f_number"]), answer["uncertainty"]["stops"]), _opening),
)  # fmt: skip
