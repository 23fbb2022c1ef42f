"""The campaign over simulated lights: dose that paper had, counted and by seconds, in one run.

    python -m tests.soak.lights COUNT [FIRST]      the real firmware on the bench
    python -m tests.soak.lights plain COUNT        the witness' own plain reader

With `--picture FILE` at the end it draws them.

Each light follows from its seed; eight in a row are one lamp's. What is to hold stands in `BREACHES`.
"""

import sys
import tempfile
from collections import Counter
from collections.abc import Callable, Sequence
from multiprocessing import Pool
from pathlib import Path

import numpy as np
from tests.soak.bits import Outcome
from tests.witnesses.lamps.campaign import BY_CAP, Given, Row, by_firmware, by_reader, rows_of
from tests.witnesses.lamps.scenario import LIGHTS_A_LAMP

from footlight.report import sheet_of_graphs as look

BINS_S = ((0.3, 0.5), (0.5, 1.0), (1.0, 2.0), (2.0, 5.0), (5.0, 10.0), (10.0, 30.0))
COUNTED = "counted"
# Reasons of a record why a light was not counted: no breach, for it is told, but few shall be.
TOLD = ("level", "lost", "stuck")
_MOST_TOLD = 0.08
_SHORT_STOPS, _LONG_STOPS, _COLOUR_STOPS = 0.05, 0.02, 0.03
_CLOSER = 10
_SLACK_MS = 1.0
_LEAST_STOPS = 0.0005  # on the picture


def one_lamp(number: int) -> list[Given]:
    """The lights of one lamp by the firmware."""
    with tempfile.TemporaryDirectory() as place:
        return by_firmware(number, Path(place))


def within(rows: Sequence[Row], value: Callable[[Row], float]) -> float:
    """So close come 95 % [stops]; nothing = nan."""
    return float(np.quantile([abs(value(row)) for row in rows], 0.95)) if rows else float("nan")


def breaches(rows: Sequence[Row]) -> list[str]:
    """What does not hold of the numbers of the issue."""
    counted = _good(rows)
    long, short = [row for row in counted if row.asked_s >= 1], [row for row in counted if row.asked_s < 1]
    calm = [row for row in long if row.mains_off <= 0.05]
    said = [f"seed {row.seed}: gate {row.gate_ms:.1f} ms, cap {row.cap_ms:.1f} ms" for row in _over(rows)]
    said += [f"seed {row.seed}: {row.how}" for row in rows if row.how not in (COUNTED, BY_CAP, *TOLD)]
    told = sum(row.how in TOLD for row in rows)
    if told > _MOST_TOLD * len(rows):
        said.append(f"{told} of {len(rows)} not counted")
    said += [f"seed {row.seed}: the record is {row.recorded:+.3f} stop off" for row in _misrecorded(rows)]
    for name, some, limit in (("1-30 s", long, _LONG_STOPS), ("0.3-1 s", short, _SHORT_STOPS)):
        if not within(some, _counted) <= limit:
            said.append(f"{name}: 95 % within {within(some, _counted):.4f} stop, not {limit}")
    if not within(counted, _counted) * _CLOSER <= within(counted, _seconds):
        said.append(
            f"closer than seconds by {within(counted, _seconds) / within(counted, _counted):.1f} only"
        )
    if calm and not max(abs(row.counted) for row in calm) <= _COLOUR_STOPS:
        said.append(f"mains within 5 %: {max(abs(row.counted) for row in calm):.4f} stop")
    return said


def _misrecorded(rows: Sequence[Row]) -> list[Row]:
    return [row for row in rows if row.how in (COUNTED, BY_CAP) and abs(row.recorded) > _SHORT_STOPS]


def _over(rows: Sequence[Row]) -> list[Row]:
    return [row for row in rows if row.gate_ms > row.cap_ms + _SLACK_MS]


def _counted(row: Row) -> float:
    return row.counted


def _seconds(row: Row) -> float:
    return row.seconds


def table(rows: Sequence[Row]) -> list[str]:
    """The table of docs/light.md."""
    lines = [
        "| light | lights | counted: half, 95 %, all within | the same by seconds: 95 % within"
        " | ended by the cap | not counted, and told |",
        "|---|---|---|---|---|---|",
    ]
    for low, high in BINS_S:
        some = [row for row in rows if low <= row.asked_s < high]
        good = _good(some)
        if good:
            marks = np.quantile([abs(row.counted) for row in good], [0.5, 0.95, 1])
            told = ", ".join(f"{mark:.3f}" for mark in marks)
            capped = sum(row.is_capped for row in some)
            lines.append(
                f"| {low:g}–{high:g} s | {len(some)} | {told} stop | {within(good, _seconds):.2f} stop"
                f" | {capped} | {len(some) - len(good) - capped} |"
            )
    return lines


def campaign(lamp_number: int) -> Outcome:
    """One lamp, for `make soak`: only what holds of each light."""
    rows = rows_of(one_lamp(lamp_number))
    said = [f"lamp {lamp_number}: {line}" for line in breaches(rows) if line.startswith("seed")]
    return len(rows), said, Counter(row.how for row in rows)


def draw(rows: Sequence[Row], path: Path) -> None:
    """Every light's error, both ways, by its length."""
    figure = look.new(8.0, 4.2)
    axes = figure.subplots()
    look.rule(axes)
    ways = (("by seconds", "x", "0.6", rows, _seconds), ("counted", "o", "0.0", _good(rows), _counted))
    for name, mark, grey, some, value in ways:
        errors = [max(_LEAST_STOPS, abs(value(row))) for row in some]
        axes.loglog([row.asked_s for row in some], errors, mark, color=grey, markersize=2.5, label=name)
    bounds = ((0.3, _SHORT_STOPS), (1, _SHORT_STOPS), (1, _LONG_STOPS), (30, _LONG_STOPS))
    axes.plot(*zip(*bounds, strict=True), color="0.0", linewidth=0.8, label="promised for 95 %")
    axes.set_xlabel("light that was asked for, s", fontsize=8)
    axes.set_ylabel("off by, stops", fontsize=8)
    axes.set_xticks([0.3, 1, 3, 10, 30], ["0.3", "1", "3", "10", "30"])
    axes.set_yticks([0.001, 0.01, 0.1, 1], ["0.001", "0.01", "0.1", "1"])
    axes.minorticks_off()
    figure.legend(loc="outside lower center", ncols=3, fontsize=8, frameon=False)
    look.save(figure, path)


def _good(rows: Sequence[Row]) -> list[Row]:
    return [row for row in rows if row.how == COUNTED]


def main(words: list[str]) -> int:
    """Exit code: 1 when a number does not hold."""
    *words, picture = words if "--picture" in words else [*words, ""]
    words = [word for word in words if word != "--picture"]
    if words[0] == "plain":
        rows = by_reader(range(int(words[1])), "paper")
    else:
        first = int(words[1]) if len(words) > 1 else 0
        seeds = range(first, first + int(words[0]))
        lamps = sorted({seed // LIGHTS_A_LAMP for seed in seeds})
        with Pool(2) as pool:
            given = [light for some in pool.imap(one_lamp, lamps) for light in some]
        rows = rows_of([light for light in given if light.scenario.seed in seeds])
    if picture:
        draw(rows, Path(picture))
    print(*table(rows), *breaches(rows), sep="\n")
    print(dict(Counter(row.how for row in rows)))
    return 1 if breaches(rows) else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
