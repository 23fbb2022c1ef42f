"""The circuit has no electrical errors, and each rule is first shown to catch a planted one."""

from collections.abc import Callable

import pytest
from hardware import rules
from hardware.circuit import GROUND, LOGIC, SUPPLY, build
from hardware.netlist import Circuit, Job, Part
from hardware.pins import read_pins


def cut(circuit: Circuit, end: str) -> None:
    ref, pin = end.split(".")
    for ends in circuit.nets.values():
        ends.discard((ref, pin))


def move(circuit: Circuit, end: str, net: str) -> None:
    cut(circuit, end)
    circuit.join(net, end)


def drop(circuit: Circuit, ref: str) -> None:
    for ends in circuit.nets.values():
        ends.difference_update({(part, pin) for part, pin in ends if part == ref})
    del circuit.parts[ref]


def test_the_circuit_has_no_electrical_errors() -> None:
    assert rules.check(build()) == []


PLANTED: list[tuple[str, Callable[[Circuit], None], str]] = [
    ("a forgotten wire", lambda c: cut(c, "R16.1"), "R16.1 is connected to nothing"),
    ("a reserved pin used", lambda c: c.join(SUPPLY, "U1.VBUS"), "U1.VBUS must stay unconnected"),
    ("a net with one end", lambda c: cut(c, "U1.LAMP_GATE"), "net LAMP_GATE has one end only"),
    ("two drivers", lambda c: move(c, "U1.SPI_SCK", "SPI_MOSI"), "several drivers"),
    ("a floating input", lambda c: drop(c, "R20"), "nothing that sets its level"),
    ("no supply", lambda c: drop(c, "D2"), "gets no supply"),
    ("the supply diode the wrong way round", lambda c: _turn(c, "D2"), "gets no supply"),
    ("split ground", lambda c: move(c, "U2.GND", "OTHER_GROUND"), "ground is split"),
    ("5 V pull-up on a pedal line", lambda c: move(c, "R14.1", SUPPLY), "bears 3.6 V"),
    ("the supply on a pull-up's far side", lambda c: move(c, "R21.1", SUPPLY), "U1.I2C_SDA bears 3.6 V"),
    ("the display without its buffer", lambda c: _bypass_buffer(c), "needs 3.5 V for a high"),
    ("no gate pull-down", lambda c: drop(c, "R2"), "Q1 has no pull-down"),
    ("no pull-down at the series element", lambda c: drop(c, "R4"), "Q2 has no pull-down"),
    ("coil to ground, driven from above", lambda c: move(c, "K1.A2", GROUND), "K1: the coil's low side"),
    ("no clamp", lambda c: drop(c, "D5"), "K1: nothing takes the coil's current"),
    ("no decoupling at the buffer", lambda c: _drop_all(c, "C1", "C3", "C6"), "no capacitor to ground"),
]


def _turn(circuit: Circuit, ref: str) -> None:
    anode, cathode = circuit.net_of(ref, "A"), circuit.net_of(ref, "K")
    assert anode and cathode
    cut(circuit, f"{ref}.A")
    cut(circuit, f"{ref}.K")
    circuit.join(cathode, f"{ref}.A")
    circuit.join(anode, f"{ref}.K")


def _drop_all(circuit: Circuit, *refs: str) -> None:
    for ref in refs:
        drop(circuit, ref)


def _bypass_buffer(circuit: Circuit) -> None:
    drop(circuit, "R11")
    move(circuit, "DS1.CLK", "SPI_SCK")


@pytest.mark.parametrize(("name", "plant", "says"), PLANTED, ids=[row[0] for row in PLANTED])
def test_each_rule_catches_a_planted_error(name: str, plant: Callable[[Circuit], None], says: str) -> None:
    circuit = build()
    plant(circuit)
    assert any(says in fault for fault in rules.check(circuit)), f"{name} went unnoticed"


def test_a_pin_cannot_be_in_two_nets() -> None:
    circuit = build()
    with pytest.raises(ValueError, match="in LAMP_GATE already"):
        circuit.join(SUPPLY, "U1.LAMP_GATE")


def test_the_circuit_uses_every_pin_of_the_table_by_its_name() -> None:
    circuit = build()
    for pin in read_pins().values():
        if pin.edge:
            assert circuit.net_of("U1", pin.name) == pin.name
            assert circuit.parts["U1"].pin(pin.name).number == str(pin.edge)


def test_the_board_is_whole() -> None:
    pico: Part = build().parts["U1"]
    assert [pin.number for pin in pico.pins] == [str(n) for n in range(1, 41)]
    assert sum(pin.job is Job.GROUND for pin in pico.pins) == 8
    assert build().net_of("U1", "3V3") == LOGIC
