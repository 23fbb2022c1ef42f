"""The campaign over simulated papers: two strips each, from pixels to advice, held against the truth.

`run(count, seed)` gives a summary; each paper is made from (seed, its number) alone, so any one can be made
again. `python -m tests.soak.papers COUNT SEED FILE` keeps a line a paper in FILE and goes on where it ended.
"""

import json
import math
import sys
from pathlib import Path

import numpy as np

from footlight.strips import reading
from footlight.strips.errors import ScanError
from footlight.strips.find import grid
from footlight.strips.result import Reading
from footlight.strips.simulated import curves, paper, scanner

MARGIN_STOPS = 1 / 3
PRESENT_S = 8.0
_TILES = 10  # the standard's field
_CELL_MM = 15.4


def first_stops(guess: float) -> list[float]:
    """Seven steps in whole stops about a guess [stops], zero and anchor beside them."""
    return _strip(guess, 1.0, 7)


def _strip(centre: float, step: float, count: int) -> list[float]:
    steps = [centre + step * (k - count // 2) for k in range(count)]
    return [-math.inf, *steps, max(centre + math.log2(10), steps[-1] + 1)]


def one(seed: int, number: int, ppi: float = 200.0) -> dict:
    """One paper, two strips; doses in stops from the present dose, which is a guess within 1.3 stops of L."""
    rng = np.random.default_rng([seed, number])
    family = curves.FAMILIES[number % len(curves.FAMILIES)]
    made = paper.drawn(family, rng)
    full, clean = made.full_stops(), made.clean_stops(side=_TILES)
    present = full + rng.uniform(-1.3, 1.3)
    row = {"number": number, "family": family, "full": full - present, "clean": clean - present}
    try:
        first = _read(made, first_stops(0.0), present, ppi, rng, 0.0)
        centre = first.advice.next_centre_stops
        last = first
        if centre is not None:
            last = _read(made, _strip(centre, 1 / 3, 9), present, ppi, rng, first.drop_d)
    except ScanError as error:
        return {**row, "error": str(error)}
    return {**row, "strips": 1 if last is first else 2, **_told(last)}


def _told(last: Reading) -> dict:
    told = {"dose": last.advice.stops, "verdict": last.advice.verdict}
    for name, bound in (("L", last.full), ("U", last.clean)):
        told |= {
            name: bound.stops,
            f"{name}_low": bound.low,
            f"{name}_high": bound.high,
            f"{name}_by": bound.by,
        }
        told[f"{name}_beyond"] = bound.beyond
    return told


def _read(made: paper.Paper, stops: list[float], present: float, ppi: float, rng, drop_d: float) -> Reading:
    """Print, scan and read a strip whose doses are `stops` from the present one."""
    device = scanner.Scanner(
        ppi=ppi, skew_deg=rng.uniform(-4, 4), uneven=rng.uniform(0, 0.03), noise=rng.uniform(0.0002, 0.0005)
    )
    sheet = scanner.Sheet(tuple(stop + present for stop in stops), _CELL_MM, _CELL_MM)
    scanned = scanner.scan(made, sheet, device, rng)
    totals = tuple(0.0 if math.isinf(stop) else PRESENT_S * 2**stop for stop in stops)
    options = reading.Options(
        tablet_d=scanned.tablet_d, paper_d=made.base_d, earlier_drop_d=drop_d, seed=int(rng.integers(1 << 30))
    )
    return reading.read(
        scanned.scan, reading.Doses(PRESENT_S, totals), grid.Guide(len(totals)), options
    ).reading


def summary(rows: list[dict]) -> dict[str, dict[str, float]]:
    """What the numbers to hold ask, over all papers and for each family."""
    groups = {"all": rows} | {name: [r for r in rows if r["family"] == name] for name in curves.FAMILIES}
    return {name: _summary(group) for name, group in groups.items() if group}


def _summary(rows: list[dict]) -> dict[str, float]:
    told = [row for row in rows if "error" not in row]
    advised = [row for row in told if row["dose"] is not None]
    room = [row for row in told if row["clean"] - row["full"] >= 2 * MARGIN_STOPS]
    return {
        "papers": len(rows),
        "not read": len(rows) - len(told),
        "with room for the rule": len(room),
        "advised": len(advised),
        "advised between L and U": _share(row["full"] <= row["dose"] <= row["clean"] for row in advised),
        "within 0.1 stop of the rule": _share(
            abs(row["dose"] - row["full"] - MARGIN_STOPS) <= 0.1 for row in advised
        ),
        "advised where U is below L": sum(row["clean"] <= row["full"] for row in advised),
        "advised where the rule has no dose": sum(
            row["clean"] - row["full"] < 2 * MARGIN_STOPS for row in advised
        ),
        "room, advised": _share(row["dose"] is not None for row in room),
        "L interval covers": _covered(told, "L", "full"),
        "U interval covers": _covered(told, "U", "clean"),
        "U intervals": len(_two_sided(told, "U", "clean")),
    }


def _share(hits) -> float:
    values = [bool(hit) for hit in hits]
    return sum(values) / len(values) if values else math.nan


def _two_sided(rows: list[dict], name: str, truth: str) -> list[dict]:
    """Where the truth lies half a stop or more inside the second strip, so both sides can be seen."""
    if name == "L":
        return [row for row in rows if row["L"] is not None]
    return [
        row for row in rows if row["strips"] == 2 and row["full"] - 0.5 <= row[truth] <= row["full"] + 1.2
    ]


def _covered(rows: list[dict], name: str, truth: str) -> float:
    def covers(row: dict) -> bool:
        low = -math.inf if row[f"{name}_low"] is None else row[f"{name}_low"]
        high = math.inf if row[f"{name}_high"] is None else row[f"{name}_high"]
        if row[f"{name}_beyond"] == "below":
            high = row[f"{name}_high"] if row[f"{name}_high"] is not None else -math.inf
        return low <= row[truth] <= high

    return _share(covers(row) for row in _two_sided(rows, name, truth))


def run(count: int, seed: int) -> dict[str, dict[str, float]]:
    """Papers 0 … count − 1 of a seed; the summary."""
    return summary([one(seed, number) for number in range(count)])


def main(count: int, seed: int, path: Path) -> None:
    """Go on where the file ends, one line a paper."""
    done = path.read_text("utf-8").splitlines() if path.exists() else []
    with path.open("a", encoding="utf-8") as file:
        for number in range(len(done), count):
            print(json.dumps(one(seed, number)), file=file, flush=True)
    rows = [json.loads(line) for line in path.read_text("utf-8").splitlines()]
    print(json.dumps(summary(rows), indent=1))


if __name__ == "__main__":
    main(int(sys.argv[1]), int(sys.argv[2]), Path(sys.argv[3]))
