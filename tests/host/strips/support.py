"""A strip of a known paper, scanned and read, in one call."""

import math
from dataclasses import dataclass

import numpy as np

from footlight.strips import reading
from footlight.strips.find import grid
from footlight.strips.simulated import paper, scanner

PRESENT_S = 8.0
STOPS = (-math.inf, -2.0, -1.0, 0.0, 1.0, 2.0, 3.0, 5.0)


@dataclass(frozen=True)
class Case:
    """A scan with the truth about it; stops: of each step from the present dose."""

    paper: paper.Paper
    sheet: scanner.Sheet
    scanned: scanner.Scanned
    stops: tuple[float, ...]

    @property
    def doses(self) -> reading.Doses:
        return reading.Doses(PRESENT_S, tuple(0.0 if math.isinf(s) else PRESENT_S * 2**s for s in self.stops))

    def read(self, guide: grid.Guide | None = None, **options) -> reading.Read:
        options = {"tablet_d": self.scanned.tablet_d, "paper_d": self.paper.base_d} | options
        guide = guide or grid.Guide(len(self.stops), self.sheet.bands)
        return reading.read(self.scanned.scan, self.doses, guide, reading.Options(**options))


def case(made: paper.Paper | None = None, seed: int = 1, stops=STOPS, sheet=None, **device) -> Case:
    """A strip; without more words one whose window is wide."""
    made = made or paper.Paper("hits", middle_stops=-1.9, veil_stops=2.0)
    sheet = sheet or scanner.Sheet(tuple(stops), 15.4, 15.4)
    rng = np.random.default_rng(seed)
    scanned = scanner.scan(made, sheet, scanner.Scanner(**device), rng, keep=True)
    return Case(made, sheet, scanned, tuple(stops))
