"""Which nets keep a hole's distance on the perfboard: between them one bridge of solder would do most harm.

A bridge of these is told or dark all the same (see the table of faults); it is made unlikely as well.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from hardware.board import DIRECTIONS, Hole, all_holes
from hardware.netlist import Circuit

RAILS = ("GND", "+5V")
_WHITE = ("WHITE", "BASE_Q3", "WHITE_SW")
_PEDAL = ("PEDAL_MAKE", "PEDAL_REST", "MAKE_LINE", "REST_LINE", "PEDAL_CHAIN")
APART: frozenset[tuple[str, str]] = frozenset(
    {(one, other) for one in _WHITE for other in _PEDAL} | {("LAMP_LOW", "GND"), ("LAMP_HIGH", "+5V")}
)


def keep_apart(one: str, other: str) -> bool:
    """Must a hole lie between these two nets?"""
    return (one, other) in APART or (other, one) in APART


def is_too_near(hole: Hole, net: str, owner: dict[Hole, str]) -> bool:
    """Would a track of this net here lie beside one that it keeps apart from?"""
    x, y = hole
    return any(keep_apart(net, owner.get((x + dx, y + dy), "")) for dx, dy in DIRECTIONS.values())


def too_near(circuit: Circuit, laid: Iterable[tuple[str, tuple[Hole, ...]]]) -> Iterator[str]:
    """Yield each place where a track lies beside a net that it keeps from; legs and the rails are given."""
    legs = {hole: circuit.net_of(*end) or "" for hole, end in all_holes(circuit).items()}
    tracks = {hole: net for net, holes in laid for hole in holes}
    owner = tracks | legs
    for hole, net in sorted(tracks.items()):
        if net not in RAILS and hole not in legs and is_too_near(hole, net, owner):
            yield f"{net} at {hole[0]}, {hole[1]} lies beside what it keeps apart from"
