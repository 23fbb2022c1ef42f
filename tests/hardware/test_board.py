"""The perfboard: what its tracks and links join, followed hole by hole, is what the netlist joins."""

import itertools

import pytest
from hardware import board, spacing
from hardware.board import COLUMNS, ROWS, SCREWS, Hole, all_holes, body
from hardware.circuit import build
from hardware.routing import Wire, route
from hardware.steps import STEPS, step_of

CIRCUIT = build()
WIRES = route(CIRCUIT)


def joined(wires: list[Wire]) -> dict[Hole, Hole]:
    """For each touched hole, one hole that stands for all it is joined to; net names are not used."""
    stands: dict[Hole, Hole] = {}

    def root(hole: Hole) -> Hole:
        while stands.setdefault(hole, hole) != hole:
            hole = stands[hole]
        return hole

    for wire in wires:
        for a, b in itertools.pairwise(wire.holes):
            stands[root(a)] = root(b)
    return {hole: root(hole) for hole in list(stands)}


def nets_of(wires: list[Wire], steps: range) -> set[frozenset[tuple[str, str]]]:
    """The groups of pins that are joined, of the parts of some steps."""
    roots, when = joined(wires), step_of()
    groups: dict[Hole, set[tuple[str, str]]] = {}
    for hole, end in all_holes(CIRCUIT).items():
        if when[end[0]] in steps:
            groups.setdefault(roots.get(hole, hole), set()).add(end)
    return {frozenset(group) for group in groups.values()}


def wanted(steps: range) -> set[frozenset[tuple[str, str]]]:
    when = step_of()
    groups: dict[str, set[tuple[str, str]]] = {}
    for end in all_holes(CIRCUIT).values():
        if when[end[0]] in steps:
            groups.setdefault(CIRCUIT.net_of(*end) or str(end), set()).add(end)
    return {frozenset(group) for group in groups.values()}


@pytest.mark.parametrize("last", range(1, len(STEPS) + 1))
def test_after_each_step_the_board_joins_what_the_netlist_joins(last: int) -> None:
    laid = [wire for wire in WIRES if wire.step <= last]
    assert nets_of(laid, range(1, last + 1)) == wanted(range(1, last + 1))


def test_a_missing_wire_would_be_noticed() -> None:
    for index in range(0, len(WIRES), 10):
        assert nets_of(WIRES[:index] + WIRES[index + 1 :], range(1, 10)) != wanted(range(1, 10))


def test_a_bare_track_goes_from_hole_to_neighbouring_hole() -> None:
    for wire in WIRES:
        for (x1, y1), (x2, y2) in itertools.pairwise(wire.holes):
            assert wire.insulated or abs(x1 - x2) + abs(y1 - y2) == 1


def test_tracks_stay_on_the_board_and_clear_of_screws_and_of_each_other() -> None:
    nets: dict[Hole, set[str]] = {}
    for wire in WIRES:
        for hole in wire.holes:
            nets.setdefault(hole, set()).add(wire.net)
            assert 1 <= hole[0] <= COLUMNS and 1 <= hole[1] <= ROWS
            assert all(max(abs(hole[0] - x), abs(hole[1] - y)) > 1 for x, y in SCREWS)
    assert all(len(names) == 1 for names in nets.values())


def test_what_keeps_apart_lies_apart() -> None:
    """WHITE once ran beside both pedal lines, and the coil's return beside ground in nine places."""
    bare = [(wire.net, wire.holes) for wire in WIRES if not wire.insulated]
    assert list(spacing.too_near(CIRCUIT, bare)) == []
    planted = [*bare, ("WHITE", ((20, 17), (20, 18)))]
    assert any("WHITE at 20, 17" in fault for fault in spacing.too_near(CIRCUIT, planted))


def test_no_part_stands_on_another() -> None:
    bodies = {part.ref: body(part) for part in CIRCUIT.parts.values() if part.on_board}
    for (one, a), (other, b) in itertools.combinations(bodies.items(), 2):
        apart = a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] or b[3] <= a[1]
        assert apart, f"{one} stands on {other}"


def test_each_part_has_its_step() -> None:
    placed = [ref for step in STEPS for ref in step.refs]
    assert sorted(placed) == sorted(part.ref for part in CIRCUIT.parts.values() if part.on_board)


def test_the_two_rows_of_the_pico_are_17_78_mm_apart() -> None:
    """Pico datasheet: 40 pins in two rows, 2.54 mm pitch, rows 17.78 mm apart."""
    spots = board.holes(CIRCUIT.parts["U1"])
    gap = spots["VBUS"][0] - spots["GP0"][0]
    assert gap * board.PITCH_MM == pytest.approx(17.78)
    assert spots["GP16"][1] - spots["VBUS"][1] == 19


def test_two_pins_in_one_hole_are_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(board.PLACES, "R1", board.PLACES["R3"])
    with pytest.raises(ValueError, match="cannot go to"):
        all_holes(CIRCUIT)
