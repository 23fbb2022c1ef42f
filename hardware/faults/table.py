"""The table of single faults: `python -m hardware.faults.table` solves them and writes made/faults.csv."""

from __future__ import annotations

import csv
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from hardware.circuit import build
from hardware.faults import catalogue
from hardware.faults.judge import Judge, Verdict
from hardware.faults.model import GATE, PUMP, REST, Fault, sound_model
from hardware.faults.witness import coil_ma, holds
from hardware.pcb.router import read as read_tracks
from hardware.routing import route
from hardware.spice.deck import have_simulator

TABLE = Path(__file__).parents[1] / "made" / "faults.csv"
COLUMNS = ("fault", "lamp", "white_light", "pedal_stop", "safe_or_told", "spice_dark_ma")
WITNESSED = 100


@dataclass(frozen=True)
class Row:
    """One line of the table, and how much the coil draws when it should not [mA]."""

    fault: Fault
    verdict: Verdict
    worst_ma: float


def faults() -> list[Fault]:
    """Return the whole list, each once."""
    circuit = build()
    every = [
        *catalogue.parts(circuit),
        *catalogue.ground_faults(),
        *catalogue.bridges(circuit, route(circuit)),
    ]
    known = {fault.joined for fault in every}
    every += [
        fault for fault in catalogue.copper_bridges(circuit, read_tracks()) if fault.joined not in known
    ]
    return list({fault.name: fault for fault in every}.values())


def rows(chosen: list[Fault]) -> Iterator[Row]:
    """Yield what each fault does."""
    model, judge = sound_model(), Judge(sound_model())
    for fault in chosen:
        dark = [model.volts(state, fault) for state in (REST, GATE, PUMP)]
        worst_ma = max(1e3 * (volts["LAMP_HIGH"] - volts["LAMP_LOW"]) / 70 for volts in dark)
        yield Row(fault, judge.verdict(fault), worst_ma)


def write() -> None:
    """Write the table; the hundred with most current in a dark coil are asked of the simulator too."""
    found = list(rows(faults()))
    asked = sorted((row for row in found if holds(row.fault)), key=lambda row: -abs(row.worst_ma))[:WITNESSED]
    witnessed = {row.fault.name for row in asked} if have_simulator() else set()
    with TABLE.open("w", encoding="utf-8", newline="") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(COLUMNS)
        for row in found:
            v = row.verdict
            spice = f"{coil_ma(row.fault):.2f}" if v.fault in witnessed else ""
            writer.writerow((v.fault, v.lamp, v.white, v.stop, "yes" if v.is_safe else "NO", spice))


def read() -> list[dict[str, str]]:
    """Return the committed table."""
    with TABLE.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


if __name__ == "__main__":
    write()
    bad = [row["fault"] for row in read() if row["safe_or_told"] != "yes"]
    print(f"{len(read())} faults, {len(bad)} neither safe nor told", *bad, sep="\n")
