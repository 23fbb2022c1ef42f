"""Invented pre-flash strips: the quick one, and the deciding one."""

import math
from dataclasses import dataclass

import numpy as np

from footlight.strips.simulated import paper, scanner

_TONES = ("black", "darker", "lighter")


@dataclass(frozen=True)
class Flashed:
    """A scanned strip. threshold_s: where paper is 0.04 D above none [s]; of the deciding strip None."""

    scanned: scanner.Scanned
    threshold_s: float | None


def quick(
    flashes_s: tuple[float, ...], threshold_s: float, device: scanner.Scanner, rng: np.random.Generator
) -> Flashed:
    """Flashes [s], none first, on a paper whose threshold is known; developed and fixed, not reversed."""
    made = paper.Paper("hits", base_d=0.07, dmax_d=2.0)
    at = math.log2(-math.log(1 - 0.04 / (made.dmax_d - made.base_d)))
    stops = tuple(at + math.log2(flash / threshold_s) if flash else -math.inf for flash in flashes_s)
    sheet = scanner.Sheet(stops, 18.0, 20.0, bands=("black",))
    return Flashed(scanner.scan(made, sheet, device, rng), threshold_s)


def deciding(
    flashes_s: tuple[float, ...], worth_s: float, device: scanner.Scanner, rng: np.random.Generator
) -> Flashed:
    """One shadow scale across all flashes [s], reversed; `worth_s` [s] of flash costs 0.06 D of black."""
    share = [flash / worth_s for flash in flashes_s]
    levels = tuple(
        tuple(full_d - loss_d * part**1.3 for part in share)
        for full_d, loss_d in ((2.05, 0.06), (2.00, 0.16), (1.94, 0.30))
    )
    stops = tuple(math.log2(flash) if flash else -math.inf for flash in flashes_s)
    sheet = scanner.Sheet(stops, 18.0, 16.0, bands=_TONES, levels_d=levels)
    return Flashed(scanner.scan(paper.Paper("hits"), sheet, device, rng), None)
