"""The tables of the pages: nets, parts, pins, and the holes and wires of each step, as Markdown and CSV."""

from __future__ import annotations

import csv
import io
import tomllib
from collections.abc import Iterable
from pathlib import Path
from typing import Any

from hardware import budget
from hardware.board import holes
from hardware.netlist import Circuit, Part, Stock, ref_key
from hardware.pins import read_pins
from hardware.routing import Wire, corners
from hardware.steps import Step

EXTRAS = Path(__file__).with_name("extras.toml")


def _table(head: Iterable[str], rows: Iterable[Iterable[str]]) -> str:
    titles = list(head)
    lines = ["| " + " | ".join(titles) + " |", "|" + " --- |" * len(titles)]
    return "\n".join(lines + ["| " + " | ".join(row) + " |" for row in rows]) + "\n"


def pin_table() -> str:
    """Return the pins of the Pico that are used."""
    rows = [
        (pin.name, f"GP{pin.gpio}", str(pin.edge or "on the board"), pin.role, pin.pull, pin.does)
        for pin in read_pins().values()
    ]
    return _table(("name", "GPIO", "edge pin", "role", "chip's own pull", "does"), rows)


def net_table(circuit: Circuit) -> str:
    """Return every net with its pins, off-board ends in brackets."""
    rows = [
        (f"`{net}`", ", ".join(_end(circuit, *end) for end in _sorted(ends)))
        for net, ends in circuit.nets.items()
    ]
    return _table(("net", "joins"), rows)


def _sorted(ends: set[tuple[str, str]]) -> list[tuple[str, str]]:
    return sorted(ends, key=lambda end: (ref_key(end[0]), end[1]))


def _end(circuit: Circuit, ref: str, pin: str) -> str:
    part = circuit.parts[ref]
    number = part.pin(pin).number
    label = (
        f"{ref}.{pin}"
        if number == pin or part.stock.shape not in ("pico", "buffer")
        else f"{ref}.{number} {pin}"
    )
    return label if part.on_board else f"({label})"


def _by_stock(circuit: Circuit) -> list[tuple[Stock, list[Part]]]:
    groups: dict[str, list[Part]] = {}
    for part in circuit.parts.values():
        groups.setdefault(part.stock.key, []).append(part)
    return [(parts[0].stock, parts) for parts in groups.values()]


def _refs(parts: list[Part]) -> str:
    return ", ".join(sorted((part.ref for part in parts), key=ref_key))


def parts_table(circuit: Circuit, on_board: bool) -> str:
    """Return the parts list, of the board or of what hangs on it."""
    rows = [
        (
            str(len(parts)),
            stock.value,
            _refs(parts),
            stock.rating,
            stock.why,
            stock.instead,
            "; ".join((stock.number, *stock.also)),
            f"{stock.cost_eur:.2f}",
        )
        for stock, parts in _by_stock(circuit)
        if parts[0].on_board == on_board
    ]
    return _table(
        ("n", "part", "where", "rating", "why this", "instead", "numbers, to be checked", "€ each, about"),
        rows,
    )


def cost_eur(circuit: Circuit) -> float:
    """Return what all parts cost together [€], as roughly as the single prices are known."""
    return sum(part.stock.cost_eur for part in circuit.parts.values())


def parts_csv(circuit: Circuit) -> str:
    """Return the parts list for a spreadsheet."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(("count", "part", "references", "on_board", "rating", "instead", "rough_cost_eur_each"))
    for stock, parts in _by_stock(circuit):
        where = "yes" if parts[0].on_board else "no"
        writer.writerow(
            (len(parts), stock.value, _refs(parts), where, stock.rating, stock.instead, stock.cost_eur)
        )
    return out.getvalue()


def read_extras(source: Path = EXTRAS) -> list[dict[str, Any]]:
    """Return what is bought beside the circuit's parts."""
    return tomllib.loads(source.read_text(encoding="utf-8"))["extra"]


def extras_table() -> str:
    """Return it as a table."""
    rows = [
        (str(row["count"]), row["name"], "; ".join((row["number"], *row["also"]))) for row in read_extras()
    ]
    return _table(("n", "what", "numbers, to be checked"), rows)


def order_csv(circuit: Circuit) -> str:
    """Return the order list as distributors read it: the relay first, then everything, one line a number."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(
        ("Quantity", "Manufacturer Part Number", "Customer Reference", "Description", "Alternatives")
    )
    groups = sorted(_by_stock(circuit), key=lambda group: group[0].key != "lamp-module")
    for stock, parts in groups:
        row = (
            len(parts),
            stock.number,
            _refs(parts),
            f"{stock.value}: {stock.rating}",
            " | ".join(stock.also),
        )
        writer.writerow(row)
    for row in read_extras():
        writer.writerow((row["count"], row["number"], "", row["name"], " | ".join(row["also"])))
    return out.getvalue()


def step_parts(circuit: Circuit, step: Step) -> str:
    """Return where each part of a step goes."""
    rows = []
    for ref in step.refs:
        part = circuit.parts[ref]
        rows.append((ref, part.stock.value, _spots(part), part.task))
    return _table(("part", "value", "holes (column, row)", "task"), rows)


def _spots(part: Part) -> str:
    spots = holes(part)
    if part.stock.shape in ("pico", "buffer"):
        by_number = {part.pin(name).number: hole for name, hole in spots.items()}
        half = len(spots) // 2
        corners_of = (1, half, half + 1, 2 * half)
        return "; ".join(f"pin {number}: {_hole(by_number[str(number)])}" for number in corners_of)
    return "; ".join(f"{name}: {_hole(hole)}" for name, hole in spots.items())


def _hole(hole: tuple[int, int]) -> str:
    return f"{hole[0]}, {hole[1]}"


def step_wires(wires: Iterable[Wire], step: Step) -> str:
    """Return the wires of a step: bare ones hole by hole at their corners, then insulated ones."""
    mine = sorted(
        (wire for wire in wires if wire.step == step.number), key=lambda wire: (wire.insulated, wire.net)
    )
    rows = [
        (
            f"`{wire.net}`",
            "insulated" if wire.insulated else "bare",
            " → ".join(f"({_hole(hole)})" for hole in corners(list(wire.holes))),
        )
        for wire in mine
    ]
    return _table(("net", "wire", "way"), rows) if rows else "No wires in this step.\n"


def current_table() -> str:
    """Return what each consumer draws."""
    usual, most = budget.total_ma()
    rows = [(load.name, f"{load.usual_ma:.0f}", f"{load.most_ma:.0f}", load.why) for load in budget.loads()]
    limits = f"fuse holds {budget.FUSE_HOLD_MA:.0f} mA, supply gives {budget.SUPPLY_MA:.0f} mA"
    return _table(
        ("draws", "usual, mA", "most, mA", "why"), [*rows, ("**sum**", f"{usual:.0f}", f"{most:.0f}", limits)]
    )


def display_table() -> str:
    """Return the display's currents with the R_SET it is sold with, and with ours."""
    sold = budget.SOLD_SEGMENT_MA
    rows = [
        ("peak current of one LED", f"{sold:.0f} mA", f"{budget.SEGMENT_MA:.1f} mA"),
        (
            "all LEDs, brightness 3 (the cap)",
            *(f"{budget.display_ma(3, 1.0, ma):.0f} mA" for ma in (sold, budget.SEGMENT_MA)),
        ),
        (
            "a third of the LEDs, brightness 0",
            *(f"{budget.display_ma(0, 1 / 3, ma):.0f} mA" for ma in (sold, budget.SEGMENT_MA)),
        ),
        (
            "display test: all LEDs at full",
            *(f"{budget.display_test_ma(ma):.0f} mA" for ma in (sold, budget.SEGMENT_MA)),
        ),
    ]
    return _table(("four modules", "10 kΩ, as sold", f"{budget.R_SET_KOHM:.0f} kΩ"), rows)


def mistakes_table() -> str:
    """Return the mistakes that are made most, and the measurement that tells of each first."""
    from hardware.faults.bringup import table

    return _table(("mistake", "tells first", "reads", "instead of", "do"), table())


def faults_table(rows: list[dict[str, str]]) -> str:
    """Return how many single faults end in what, most first."""
    ends = [(row["lamp"], row["white_light"], row["pedal_stop"]) for row in rows]
    counted = sorted(set(ends), key=lambda end: (-ends.count(end), end))
    table = [(str(ends.count(end)), *end) for end in counted]
    return f"{len(rows)} faults.\n\n" + _table(("faults", "lamp", "white light", "pedal's stop"), table)


def checks_table(rows: list[dict[str, str]]) -> str:
    """Return the results of the last simulation."""
    return _table(
        ("check", "came out", "bound", "kept"),
        [
            (row["check"], f"{row['measured']} {row['unit']}", f"{row['bound']} {row['unit']}", row["kept"])
            for row in rows
        ],
    )
