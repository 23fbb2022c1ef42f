"""What the campaign of strips says: shares by family, surround, tablet, resolution; the numbers to hold."""

import math
from collections.abc import Callable, Iterable
from statistics import median

Row = dict
GROUPS = (
    "family",
    "surround",
    "tablet",
    "ppi",
    "lid",
    "order",
    "place",
    "file",
    "encoding",
    "uneven",
    "skew",
)
GROUPS += ("surface", "design", "sheet", "drops")
MARGIN_STOPS = 1 / 3
MISPLACED_MM = 4.0


def is_read(row: Row) -> bool:
    return row["read"]


def misplaced(row: Row) -> bool:
    """Read, but not where the strip lies."""
    return row["read"] and row["misplaced_mm"] > MISPLACED_MM


def has_room(row: Row) -> bool:
    """The page's rule has a dose: L and U are two margins apart."""
    return row["window_stops"] >= 2 * MARGIN_STOPS


def advised(row: Row) -> bool:
    return row["read"] and row["advised_s"] is not None


def outside(row: Row) -> bool:
    """Advised below L or above U."""
    return advised(row) and not row["full_s"] <= row["advised_s"] <= row["clean_s"]


def without_room(row: Row) -> bool:
    """Advised where white goes before black is full."""
    return advised(row) and row["window_stops"] < 0


def off_rule_stops(row: Row) -> float:
    """The advice from L and the margin [stop]."""
    return math.log2(row["advised_s"] / row["full_s"]) - row["margin_stops"]


def covers(row: Row, limit: str) -> bool | None:
    """Whether a 90 % interval holds the truth; None where there is none."""
    ends = row.get(limit)
    return None if ends is None else ends[0] <= row[f"{limit}_s"] <= ends[1]


def share(hits: Iterable[bool | None]) -> float | None:
    """Of those that are not None [%]."""
    known = [hit for hit in hits if hit is not None]
    return 100 * sum(known) / len(known) if known else None


def _all(rows: list[Row], key: str) -> list[float]:
    return [value for row in rows if row["read"] for value in row[key]]


# Heading -> what is counted of a group: a share in per cent, a number, or a ratio.
COLUMNS: dict[str, Callable[[list[Row]], float | int | None]] = {
    "scans": len,
    "read %": lambda rows: share(map(is_read, rows)),
    "mis- placed": lambda rows: sum(map(misplaced, rows)),
    "advised": lambda rows: sum(map(advised, rows)),
    "outside L-U": lambda rows: sum(map(outside, rows)),
    "no room, advised": lambda rows: sum(map(without_room, rows)),
    "room, advised %": lambda rows: share(advised(row) for row in rows if has_room(row)),
    "0.1 stop of rule %": lambda rows: share(abs(off_rule_stops(row)) <= 0.1 for row in rows if advised(row)),
    "L covered %": lambda rows: share(covers(row, "full") for row in rows),
    "U covered %": lambda rows: share(covers(row, "clean") for row in rows),
    "density 0.02 %": lambda rows: share(abs(off) <= 0.02 for off in _all(rows, "density_off_d")),
    "mottle median": lambda rows: median(_all(rows, "mottle_ratio") or [math.nan]),
    "mottle tenth %": lambda rows: share(abs(ratio - 1) <= 0.1 for ratio in _all(rows, "mottle_ratio")),
}

# What is to hold (the issue) -> whether it does, of all rows.
LIMITS: dict[str, Callable[[list[Row]], bool]] = {
    "read >= 95 %": lambda rows: _least(COLUMNS["read %"](rows), 95),
    "outside L-U <= 1 of 1000": lambda rows: _count("outside L-U", rows) <= max(1, len(rows) // 1000),
    "advised where there is no room: 0": lambda rows: _count("no room, advised", rows) == 0,
    "fine steps, with room, advised >= 90 %": lambda rows: _least(
        COLUMNS["room, advised %"](_fine(rows)), 90
    ),
    "fine steps, 0.1 stop of the rule >= 95 %": lambda rows: _least(
        COLUMNS["0.1 stop of rule %"](_fine(rows)), 95
    ),
    "L covered 85 to 95 %": lambda rows: _between(COLUMNS["L covered %"](rows)),
    "U covered 85 to 95 %": lambda rows: _between(COLUMNS["U covered %"](rows)),
    "density within 0.02 D >= 95 %": lambda rows: _least(COLUMNS["density 0.02 %"](rows), 95),
    "mottle within a tenth >= 90 %": lambda rows: _least(COLUMNS["mottle tenth %"](rows), 90),
    "median of mottle within 3 %": lambda rows: abs((COLUMNS["mottle median"](rows) or 0) - 1) <= 0.03,
}


def _fine(rows: list[Row]) -> list[Row]:
    """Strips of half stops or unequal steps: from whole stops no reader can tell L to a tenth (README)."""
    return [row for row in rows if row["design"] != "whole stops"]


def _count(column: str, rows: list[Row]) -> float:
    return COLUMNS[column](rows) or 0


def _least(value: float | None, limit: float) -> bool:
    return value is not None and value >= limit


def _between(value: float | None) -> bool:
    return value is not None and 85 <= value <= 95


def table(rows: list[Row]) -> str:
    """All, and every group of scans, a line each, as a table of a page."""
    lines = ["| | " + " | ".join(COLUMNS) + " |", "|---|" + "---:|" * len(COLUMNS), _line("**all**", rows)]
    for group in GROUPS:
        for name in sorted({row[group] for row in rows}, key=lambda name: (isinstance(name, str), name)):
            lines.append(_line(f"{group}: {name}", [row for row in rows if row[group] == name]))
    return "\n".join(lines)


def _line(name: str, rows: list[Row]) -> str:
    return f"| {name} | " + " | ".join(_shown(count(rows)) for count in COLUMNS.values()) + " |"


def _shown(value: float | int | None) -> str:
    if value is None or (isinstance(value, float) and math.isnan(value)):
        return "–"
    if isinstance(value, int):
        return str(value)
    return f"{value:.1f}" if value > 3 else f"{value:.2f}"


def tell(rows: list[Row]) -> int:
    """What holds and what does not, the wrong ones by seed -> how many numbers are missed."""
    missed = 0
    for name, holds in LIMITS.items():
        missed += not holds(rows)
        print(f"{'holds ' if holds(rows) else 'MISSED'}  {name}")
    for name, test in {"outside L-U": outside, "no room": without_room, "misplaced": misplaced}.items():
        seeds = [row["seed"] for row in rows if test(row)]
        if seeds:
            print(f"{name}: seeds {' '.join(map(str, seeds))}")
    return missed
