"""Two layers of tracks for the printed board: every net alone, dearer where others go, until none meet.

The holes are the perfboard's, so that pictures, steps and connectors are the same. Nodes are 1.27 mm apart; a
step goes along a row or a column, or through a via. What is laid is kept in made/pcb/tracks.csv, for
laying it takes a minute.
"""

from __future__ import annotations

import csv
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from heapq import heappop, heappush
from pathlib import Path

from hardware.board import COLUMNS, ROWS, SCREWS, all_holes
from hardware.netlist import Circuit

TRACKS = Path(__file__).parents[1] / "made" / "pcb" / "tracks.csv"
UNIT_MM = 1.27
WIDTH, HEIGHT = 2 * COLUMNS + 1, 2 * ROWS + 1
# These carry the box's current, or a relay's; their tracks are twice as wide.
WIDE = ("GND", "+5V", "+5V_IN", "LAMP_HIGH", "LAMP_LOW", "WHITE_SW", "VSYS", "SOUNDER")
# Pads of 2 mm: thick legs.
BIG = ("terminal-2", "terminal-3", "fet", "ptc", "tvs")
SCREW_UNITS = 3
VIA_COST = 8.0
ROUNDS = 60

Node = tuple[int, int, int]  # layer (0 top, 1 bottom), x, y


class NoWayError(RuntimeError):
    """A net found no way, or two still meet after all rounds."""


@dataclass(frozen=True)
class Step:
    """One net's step from node to neighbouring node."""

    net: str
    a: Node
    b: Node


class Board:
    """Who may go where."""

    def __init__(self, circuit: Circuit) -> None:
        self.pads: dict[tuple[int, int], str] = {}
        self.big: set[tuple[int, int]] = set()
        for (column, row), (ref, pin) in all_holes(circuit).items():
            at = (2 * column, 2 * row)
            self.pads[at] = circuit.net_of(ref, pin) or f"unused {ref}.{pin}"
            if circuit.parts[ref].stock.key in BIG:
                self.big.add(at)
        self.closed = {
            (x, y)
            for column, row in SCREWS
            for x in range(2 * column - SCREW_UNITS, 2 * column + SCREW_UNITS + 1)
            for y in range(2 * row - SCREW_UNITS, 2 * row + SCREW_UNITS + 1)
        } - set(self.pads)
        self.nets: dict[str, list[tuple[int, int]]] = {}
        for at, net in sorted(self.pads.items()):
            if not net.startswith("unused"):
                self.nets.setdefault(net, []).append(at)

    def is_free(self, net: str, x: int, y: int) -> bool:
        """May this net's track lie here, as far as pads, screws and the edge go?"""
        if not (2 <= x < WIDTH and 2 <= y < HEIGHT) or (x, y) in self.closed:
            return False
        owner = self.pads.get((x, y))
        if owner is not None:
            return owner == net
        return not any(self.is_near(net, at) for at in _around(x, y))

    def is_near(self, net: str, at: tuple[int, int]) -> bool:
        """Would a track one step beside this pad come too near to it?"""
        owner = self.pads.get(at)
        return owner is not None and owner != net and (net in WIDE or at in self.big)

    def takes_via(self, net: str, x: int, y: int) -> bool:
        """A via needs room from every other net's pads, and is not drilled into a pad."""
        others = any(self.pads.get(at, net) != net for at in _around(x, y))
        return (x, y) not in self.pads and not others


def _around(x: int, y: int) -> tuple[tuple[int, int], ...]:
    return ((x + 1, y), (x - 1, y), (x, y + 1), (x, y - 1))


def route(circuit: Circuit) -> list[Step]:
    """Lay every net.

    Raises:
        NoWayError: when a net has no way, or nets still meet after all rounds.
    """
    board = Board(circuit)
    past: dict[Node, float] = {}
    laid: dict[str, list[Step]] = {}
    users: dict[Node, set[str]] = {}
    order = sorted(board.nets, key=lambda net: (len(board.nets[net]), net))
    met: list[Node] = []
    for number in range(ROUNDS):
        for net in order:
            _forget(net, laid, users)
            laid[net] = _lay(board, net, past, users, 0.5 * 1.5**number)
            for node in _nodes(laid[net]):
                users.setdefault(node, set()).add(net)
        met = [node for node, nets in users.items() if len(nets) > 1]
        if not met:
            return [step for net in order for step in laid[net]]
        for node in met:
            past[node] = past.get(node, 0.0) + 1.0
        wanted = {net for node in met for net in users[node]}
        order = sorted(board.nets, key=lambda net: (net not in wanted, len(board.nets[net]), net))
    raise NoWayError(f"{len(met)} places are wanted by two nets after {ROUNDS} rounds")


def _forget(net: str, laid: dict[str, list[Step]], users: dict[Node, set[str]]) -> None:
    for node in _nodes(laid.get(net, ())):
        users[node].discard(net)


def _nodes(steps: Iterable[Step]) -> set[Node]:
    return {node for step in steps for node in (step.a, step.b)}


def _lay(
    board: Board, net: str, past: dict[Node, float], users: dict[Node, set[str]], press: float
) -> list[Step]:
    """Grow one tree from pad to pad, the nearest next."""
    pads = board.nets[net]
    tree: set[Node] = {(layer, *pads[0]) for layer in (0, 1)}
    waiting = set(pads[1:])
    steps: list[Step] = []
    while waiting:
        way = _search(board, net, tree, waiting, lambda node: _price(node, net, past, users, press))
        steps += [Step(net, a, b) for a, b in zip(way, way[1:], strict=False)]
        tree |= set(way)
        end = way[-1][1:]
        tree |= {(layer, *end) for layer in (0, 1)}
        waiting.discard(end)
    return [step for step in steps if step.a[0] == step.b[0] or step.a[1:] not in board.pads]


def _price(node: Node, net: str, past: dict[Node, float], users: dict[Node, set[str]], press: float) -> float:
    others = len(users.get(node, set()) - {net})
    return (1.0 + past.get(node, 0.0)) * (1.0 + press * others)


def _search(board: Board, net: str, tree: set[Node], goals: set[tuple[int, int]], price) -> list[Node]:
    nowhere: Node = (-1, 0, 0)
    queue: list[tuple[float, Node, Node]] = [(0.0, node, nowhere) for node in sorted(tree)]
    came: dict[Node, Node] = {}
    while queue:
        cost, here, before = heappop(queue)
        if here in came:
            continue
        came[here] = before
        layer, x, y = here
        if (x, y) in goals:
            return _way_back(here, came)
        for nx, ny in _around(x, y):
            there = (layer, nx, ny)
            if there not in came and board.is_free(net, nx, ny):
                # The top runs along, the bottom across: less in each other's way.
                against = 0.4 if (layer == 0) == (nx == x) else 0.0
                heappush(queue, (cost + price(there) + against, there, here))
        other = (1 - layer, x, y)
        if other not in came:
            if (x, y) in board.pads:
                heappush(queue, (cost, other, here))
            elif board.takes_via(net, x, y):
                heappush(queue, (cost + VIA_COST * price(other), other, here))
    raise NoWayError(f"{net} has no way to {sorted(goals)}")


def _way_back(end: Node, came: dict[Node, Node]) -> list[Node]:
    way: list[Node] = []
    here = end
    while here[0] >= 0:
        way.append(here)
        here = came[here]
    return way[::-1]


def write(steps: Iterable[Step], target: Path = TRACKS) -> None:
    """Keep what was laid."""
    target.parent.mkdir(parents=True, exist_ok=True)
    with target.open("w", encoding="utf-8", newline="") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(("net", "layer_a", "x_a", "y_a", "layer_b", "x_b", "y_b"))
        writer.writerows(
            (step.net, *step.a, *step.b) for step in sorted(set(steps), key=lambda s: (s.net, s.a, s.b))
        )


def read(source: Path = TRACKS) -> Iterator[Step]:
    """Yield what was laid."""
    with source.open(encoding="utf-8", newline="") as file:
        for net, *numbers in list(csv.reader(file))[1:]:
            a, b = (int(n) for n in numbers[:3]), (int(n) for n in numbers[3:])
            yield Step(net, tuple(a), tuple(b))  # pyright: ignore[reportArgumentType]


def is_current(circuit: Circuit, steps: Iterable[Step]) -> bool:
    """Are the pads that the tracks were laid for still where they were?"""
    board = Board(circuit)
    return all(board.is_free(step.net, *node[1:]) for step in steps for node in (step.a, step.b))
