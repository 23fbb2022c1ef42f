"""The list of single faults: every part gone, every two legs of it joined, neighbouring pads bridged."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Iterator

from hardware.board import Hole, all_holes
from hardware.faults.model import Fault
from hardware.netlist import Circuit
from hardware.pcb.router import Step
from hardware.routing import Wire

# What the model does not hold: their legs and pads are still bridged.
NOT_MODELLED = ("pico", "buffer", "display", "photodiode")


def parts(circuit: Circuit) -> Iterator[Fault]:
    """Yield each part open, and each pair of its legs shorted."""
    for part in circuit.parts.values():
        if part.stock.shape in NOT_MODELLED or part.ref == "S2":
            continue
        if not part.stock.shape.startswith("connector"):
            yield Fault(f"{part.ref} open", opened=part.ref)
        for one, other in itertools.combinations(part.pins, 2):
            nets = circuit.net_of(part.ref, one.name), circuit.net_of(part.ref, other.name)
            if nets[0] and nets[1] and nets[0] != nets[1]:
                yield Fault(f"{part.ref} {one.name}–{other.name} shorted", joined=((nets[0], nets[1]),))


def bridges(circuit: Circuit, wires: Iterable[Wire]) -> Iterator[Fault]:
    """Yield each pair of nets that lie one hole apart on the perfboard, with the first place."""
    nets = {hole: net for hole, end in all_holes(circuit).items() if (net := circuit.net_of(*end))}
    nets |= {hole: wire.net for wire in wires for hole in wire.holes}
    places: dict[tuple[str, str], tuple[Hole, Hole]] = {}
    for (x, y), net in sorted(nets.items()):
        for there in ((x + 1, y), (x, y + 1)):
            other = nets.get(there)
            if other and other != net:
                places.setdefault((min(net, other), max(net, other)), ((x, y), there))
    for (one, other), (a, b) in sorted(places.items()):
        yield Fault(
            f"{one} bridged to {other}, holes {a[0]}, {a[1]} and {b[0]}, {b[1]}", joined=((one, other),)
        )


def copper_bridges(circuit: Circuit, steps: Iterable[Step]) -> Iterator[Fault]:
    """Yield each pair of nets that are neighbours on the printed board, up to 2.54 mm apart."""
    steps = list(steps)
    at: dict[tuple[int, int, int], str] = {}
    for step in steps:
        at[step.a] = at[step.b] = step.net
    for (column, row), end in all_holes(circuit).items():
        if net := circuit.net_of(*end):
            at |= {(layer, 2 * column, 2 * row): net for layer in (0, 1)}
    pairs = {
        tuple(sorted((net, other)))
        for (layer, x, y), net in at.items()
        for far in (1, 2)
        for there in ((layer, x + far, y), (layer, x, y + far))
        if (other := at.get(there)) and other != net
    }
    for one, other in sorted(pairs):
        yield Fault(f"{one} bridged to {other}, printed board", joined=((one, other),))


def ground_faults() -> Iterator[Fault]:
    """Yield each wire that leaves the box on either rail: a chafed cable, water in a plug."""
    for net in ("LAMP_HIGH", "LAMP_LOW", "WHITE_SW", "MAKE_LINE", "REST_LINE", "PEDAL_CHAIN"):
        for rail in ("GND", "+5V"):
            yield Fault(f"cable of {net} on {rail}", joined=((net, rail),))
