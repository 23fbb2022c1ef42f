"""The nets are read from the finished SVG by geometry alone and must be those of the netlist."""

from pathlib import Path

import pytest
from hardware.circuit import build
from hardware.drawing.reading import ReadingError, read_nets
from hardware.drawing.schematic import draw
from hardware.netlist import Job

COMMITTED = Path("hardware/made/schematic.svg")


def as_sets(nets: dict[str, set[tuple[str, str]]]) -> set[frozenset[tuple[str, str]]]:
    return {frozenset(ends) for ends in nets.values()}


def wanted() -> set[frozenset[tuple[str, str]]]:
    """The netlist's nets, and each unconnected pin alone."""
    circuit = build()
    alone = {
        frozenset({(part.ref, pin.name)})
        for part in circuit.parts.values()
        for pin in part.pins
        if circuit.net_of(part.ref, pin.name) is None
    }
    return as_sets(circuit.nets) | alone


def test_the_committed_drawing_has_exactly_the_nets_of_the_netlist() -> None:
    assert as_sets(read_nets(COMMITTED.read_text(encoding="utf-8"))) == wanted()


def test_the_committed_drawing_is_what_the_code_draws() -> None:
    assert draw().svg() == COMMITTED.read_text(encoding="utf-8")
    assert COMMITTED.with_suffix(".png").stat().st_size > 20_000


def test_the_drawing_shows_every_pin_of_every_part_once() -> None:
    drawn = [end for ends in read_nets(draw().svg()).values() for end in ends]
    circuit = build()
    assert sorted(drawn) == sorted(
        (part.ref, pin.name) for part in circuit.parts.values() for pin in part.pins
    )


def test_names_in_the_drawing_are_names_of_the_netlist() -> None:
    circuit = build()
    for name, ends in read_nets(draw().svg()).items():
        if name in circuit.nets:
            assert ends == circuit.nets[name]


def test_unused_pins_are_crossed_out() -> None:
    pico = build().parts["U1"]
    lone = {next(iter(ends)) for ends in read_nets(draw().svg()).values() if len(ends) == 1}
    assert {("U1", pin.name) for pin in pico.pins if pin.job is Job.UNUSED} <= lone


# --- the reader itself, on small drawings ------------------------------------------------------------------


def small(*marks: str) -> str:
    return f'<svg xmlns="http://www.w3.org/2000/svg">{"".join(marks)}</svg>'


def pin(ref: str, x: float, y: float) -> str:
    return f'<circle class="pin" data-ref="{ref}" data-pin="1" cx="{x}" cy="{y}" r="0.1"/>'


LEVEL = '<polyline class="wire" points="0,0 10,0"/>'
UPRIGHT = '<polyline class="wire" points="5,-5 5,5"/>'
ENDS = pin("A", 0, 0) + pin("B", 10, 0) + pin("C", 5, -5) + pin("D", 5, 5)
AB, CD = {("A", "1"), ("B", "1")}, {("C", "1"), ("D", "1")}


def test_a_crossing_without_a_dot_joins_nothing() -> None:
    assert as_sets(read_nets(small(LEVEL, UPRIGHT, ENDS))) == {frozenset(AB), frozenset(CD)}


def test_a_dot_joins() -> None:
    dot = '<circle class="dot" cx="5" cy="0" r="0.4"/>'
    assert as_sets(read_nets(small(LEVEL, UPRIGHT, ENDS, dot))) == {frozenset(AB | CD)}


def test_an_end_on_a_wire_without_a_dot_is_refused() -> None:
    half = '<polyline class="wire" points="5,0 5,5"/>'
    with pytest.raises(ReadingError, match="no dot"):
        read_nets(small(LEVEL, half, ENDS))


def test_two_names_on_one_wire_are_refused() -> None:
    names = '<text class="net" data-at="0,0">P</text><text class="net" data-at="10,0">Q</text>'
    with pytest.raises(ReadingError, match="joined"):
        read_nets(small(LEVEL, names, ENDS))


def test_a_wire_taken_away_is_noticed() -> None:
    svg = draw().svg()
    lines = svg.splitlines()
    wires = [number for number, line in enumerate(lines) if 'class="wire"' in line]
    for number in wires[:: max(1, len(wires) // 12)]:
        cut = "\n".join(lines[:number] + lines[number + 1 :])
        try:
            nets = as_sets(read_nets(cut))
        except ReadingError:
            continue
        assert nets != wanted()
