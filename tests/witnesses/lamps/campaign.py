"""Errors of many lights, counted and by seconds, against what paper has had. What tells of a run is `Row`."""

import math
from collections.abc import Iterable
from dataclasses import dataclass

from tests.witnesses.lamps import truth
from tests.witnesses.lamps.reader import Reader
from tests.witnesses.lamps.scenario import Scenario, scenario

BEGIN_US = 60_000_000
CAP_STOPS = 1 / 3


@dataclass(frozen=True)
class Row:
    """A light: what it was off by [stops], both ways; whether its cap ended it."""

    seed: int
    asked_s: float
    counted: float
    seconds: float
    is_capped: bool


def rows(scenarios: list[Scenario], spans_us: list[tuple[int, int]], capped: list[bool]) -> list[Row]:
    """Of lights whose gate is known, by the lamp's own light. By seconds: asked, and the dead time."""
    steady = truth.steady([each.learnt for each in scenarios])
    counted = [truth.Light(s.lit, *span) for s, span in zip(scenarios, spans_us, strict=True)]
    seconds = [
        truth.Light(s.lit, begin_us, begin_us + int((s.asked_s + known.dead_s) * 1e6))
        for s, (begin_us, _), known in zip(scenarios, spans_us, steady, strict=True)
    ]
    doses_s = zip(truth.doses_s(counted), truth.doses_s(seconds), strict=True)
    return [
        Row(
            each.seed,
            each.asked_s,
            *_stops(both, known.level * each.asked_s),
            is_capped,
        )
        for each, known, both, is_capped in zip(scenarios, steady, doses_s, capped, strict=True)
    ]


def _stops(doses_s: tuple[float, float], asked_s: float) -> tuple[float, float]:
    return math.log2(doses_s[0] / asked_s), math.log2(doses_s[1] / asked_s)


def prototype(seeds: Iterable[int], sees: str, asked_s: float | None = None) -> list[Row]:
    """Lights of cold lamps, counted by the plain reader."""
    scenarios = [scenario(seed, BEGIN_US, sees, asked_s) for seed in seeds]
    dead_s = [known.dead_s for known in truth.steady([each.learnt for each in scenarios])]
    spans, capped = [], []
    for each, dead in zip(scenarios, dead_s, strict=True):
        cap_us = int((each.asked_s * 2**CAP_STOPS + dead) * 1e6)
        begin_us, end_us = _counted(each, cap_us)
        spans.append((begin_us, end_us))
        capped.append(end_us - begin_us >= cap_us)
    return rows(scenarios, spans, capped)


def _counted(each: Scenario, cap_us: int) -> tuple[int, int]:
    learnt, lit = each.fitted
    reader = Reader(learnt, each.seed)
    reader.learn()
    reader.cool_down_until(BEGIN_US)
    reader.change(lit)
    return reader.light(int(each.asked_s * 1e6), cap_us)
