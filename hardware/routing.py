"""Find the bare-wire tracks on the solder side, hole by hole, and the links of insulated wire between them.

Ground and supply get straight buses first. Then, net by net, a track is looked for that is short and has
few bends, over empty holes and holes of its own net. What would be longer than a maker cares to lay becomes a
link of insulated wire from hole to hole. The outcome is the same at every run.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from heapq import heappop, heappush

from hardware.board import COLUMNS, DIRECTIONS, ROWS, SCREWS, Hole, all_holes
from hardware.netlist import Circuit
from hardware.spacing import is_too_near
from hardware.steps import step_of

# Straight runs of bare wire, laid first: from hole to hole.
BUSES: dict[str, tuple[tuple[Hole, Hole], ...]] = {
    "GND": (((4, 25), (45, 25)), ((24, 6), (24, 25))),
    "+5V": (((5, 2), (39, 2)), ((39, 2), (39, 24)), ((5, 2), (5, 22))),
}
LONGEST = 14
BEND_COST = 2

State = tuple[Hole, Hole]


@dataclass(frozen=True)
class Wire:
    """A bare track (neighbouring holes) or an insulated link (two holes), and the step it is laid in."""

    net: str
    step: int
    holes: tuple[Hole, ...]
    insulated: bool


def route(circuit: Circuit) -> list[Wire]:
    """Return the wires of the whole board."""
    taken = all_holes(circuit)
    steps = step_of()
    owner = {hole: circuit.net_of(*end) or f"unused {end}" for hole, end in taken.items()}
    owner |= {(x + dx, y + dy): "screw" for x, y in SCREWS for dx in (-1, 0, 1) for dy in (-1, 0, 1)}
    pins: dict[str, dict[Hole, int]] = {}
    for hole, end in taken.items():
        if net := circuit.net_of(*end):
            pins.setdefault(net, {})[hole] = steps[end[0]]
    wires: list[Wire] = []
    for net in BUSES:
        wires += _lay_buses(net, owner)
    for net in sorted(pins, key=lambda name: (_span(pins[name]), name)):
        wires += _route_net(
            net, pins[net], owner, {hole for wire in wires if wire.net == net for hole in wire.holes}
        )
    return wires


def _lay_buses(net: str, owner: dict[Hole, str]) -> Iterator[Wire]:
    for (x1, y1), (x2, y2) in BUSES[net]:
        track = tuple((x, y) for x in range(x1, x2 + 1) for y in range(y1, y2 + 1))
        for hole in track:
            if owner.setdefault(hole, net) != net:
                raise ValueError(f"the {net} bus runs over {hole}, which belongs to {owner[hole]}")
        yield Wire(net, 1, track, insulated=False)


def _span(holes: Iterable[Hole]) -> int:
    xs, ys = [x for x, _ in holes], [y for _, y in holes]
    return max(xs) - min(xs) + max(ys) - min(ys)


def _route_net(net: str, pins: dict[Hole, int], owner: dict[Hole, str], bus: set[Hole]) -> Iterator[Wire]:
    """Grow one tree, step by step: no wire waits for a part of a later step, or runs over its holes."""
    tree = bus or {min(pins, key=lambda hole: (pins[hole], hole))}
    waiting = set(pins) - tree
    while waiting:
        step = min(pins[hole] for hole in waiting)
        goals = {hole for hole in waiting if pins[hole] == step}
        free = {hole: who for hole, who in owner.items() if pins.get(hole, 0) <= step}
        free |= dict.fromkeys(waiting - goals, "later")
        track = _shortest(tree, goals, free, net)
        link = min(((a, b) for a in tree for b in goals), key=_distance)
        yield Wire(net, step, tuple(track or link), insulated=track is None)
        reached = track or [link[1]]
        owner.update(dict.fromkeys(reached, net))
        tree.update(reached)
        waiting -= tree


def _distance(pair: tuple[Hole, Hole]) -> tuple[int, Hole, Hole]:
    (x1, y1), (x2, y2) = pair
    return (x1 - x2) ** 2 + (y1 - y2) ** 2, pair[0], pair[1]


def _shortest(tree: set[Hole], goals: set[Hole], owner: dict[Hole, str], net: str) -> list[Hole] | None:
    """Search by cost, a hole and a bend each having theirs; a state is a hole and the way it was entered."""
    queue: list[tuple[int, State, State | None]] = [(0, (hole, (0, 0)), None) for hole in sorted(tree)]
    came: dict[State, State | None] = {}
    while queue:
        cost, state, before = heappop(queue)
        if state in came:
            continue
        came[state] = before
        (x, y), heading = state
        if (x, y) in goals:
            return _way_back(state, came)
        for step in DIRECTIONS.values():
            there = (x + step[0], y + step[1])
            dearer = cost + 1 + (BEND_COST if heading not in ((0, 0), step) else 0)
            inside = 1 <= there[0] <= COLUMNS and 1 <= there[1] <= ROWS
            free = owner.get(there, net) == net and (there in goals or not is_too_near(there, net, owner))
            if inside and dearer <= LONGEST and free:
                heappush(queue, (dearer, (there, step), state))
    return None


def _way_back(end: State, came: dict[State, State | None]) -> list[Hole]:
    way: list[Hole] = []
    here: State | None = end
    while here is not None:
        way.append(here[0])
        here = came[here]
    return way[::-1]


def corners(track: list[Hole]) -> list[Hole]:
    """Return only the ends and corners of a track."""
    kept = [track[0]]
    for before, here, after in zip(track, track[1:], track[2:], strict=False):
        if (here[0] - before[0], here[1] - before[1]) != (after[0] - here[0], after[1] - here[1]):
            kept.append(here)
    return [*kept, track[-1]]
