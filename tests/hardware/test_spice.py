"""The circuit in the SPICE simulator, at the corners of its parts; the checks first fail on bad circuits.

Without ngspice these tests are skipped and say so; `.ci/run` installs it.
"""

import math
from collections.abc import Callable, Iterator

import pytest
from hardware.netlist import Circuit, quantity, read_stock
from hardware.spice import checks, lamp
from hardware.spice.checks import Result
from hardware.spice.deck import have_simulator, node
from hardware.spice.lamp import STOP_S, Drive
from hardware.spice.models import SLOW_OFF, TYPICAL

needs_simulator = pytest.mark.skipif(
    not have_simulator(), reason="ngspice is not installed: the circuit is NOT checked in a simulator here"
)


@needs_simulator
@pytest.mark.parametrize("question", checks.QUESTIONS, ids=lambda question: question.__name__)
def test_the_circuit_keeps_every_bound(question: Callable[[], Iterator[Result]]) -> None:
    results = list(question())
    assert results
    assert [str(result) for result in results if not result.passed] == []


@pytest.fixture
def altered(monkeypatch: pytest.MonkeyPatch) -> Iterator[Callable[[str, str], None]]:
    """Change the part at one reference for another of parts.toml, in the circuit of the decks."""
    circuit = lamp.build()
    monkeypatch.setattr(lamp, "circuit", lambda: circuit)
    monkeypatch.setattr(checks, "circuit", lambda: circuit)
    _forget()

    def alter(ref: str, key: str) -> None:
        part = circuit.parts[ref]
        circuit.parts[ref] = type(part)(ref, read_stock()[key], part.pins, part.task, part.on_board)

    yield alter
    _forget()


def _forget() -> None:
    lamp.lamp.cache_clear()
    checks._pedal.cache_clear()


def _failures(results: Iterator[Result]) -> list[str]:
    return [result.name for result in results if not result.passed]


@needs_simulator
def test_a_larger_holding_capacitor_is_caught(altered: Callable[[str, str], None]) -> None:
    altered("C5", "c-100n")
    assert any("pump stops high" in name for name in _failures(checks.released()))


@needs_simulator
def test_a_weak_pedal_pull_up_is_caught(altered: Callable[[str, str], None]) -> None:
    altered("R15", "r-10k")
    assert any("PEDAL_REST, contact open" in name for name in _failures(checks.pedal()))


@needs_simulator
def test_a_pump_that_passes_a_level_is_caught(altered: Callable[[str, str], None]) -> None:
    """A resistor where C4 belongs lets a stuck pin hold the lamp on: C4 is there to prevent it."""
    altered("C4", "r-1k")
    assert any("gate high, pump high" in name for name in _failures(checks.dark()))


@needs_simulator
def test_release_agrees_with_the_hand_calculation() -> None:
    """t = R·C·ln(V_held / V_let go); Q2 lets go at threshold + √(2I/Kp), less 0.1 V for its soft foot.

    C is C5 and the gate itself, 1.55 nF to the source and up to 1.5 nF to the drain.
    """
    curves = lamp.lamp(Drive("high", "stops low"), SLOW_OFF)
    held = min(curves.after("v(n_hold)", 5e-3)[:100])
    tau = 47e3 * SLOW_OFF.resistance * (33e-9 * SLOW_OFF.capacitance + 3.05e-9)
    half_a = 0.5 * lamp.SUPPLY_V / lamp.RELAY.ohm
    lets_go_v = SLOW_OFF.threshold_v + math.sqrt(2 * half_a / SLOW_OFF.kp)
    measured_s = curves.last_above("i(v_k1)", half_a) - STOP_S
    # The coil itself, 0.15 H against 17 V, adds about 0.3 ms; the last pulse half a tick; and while the drain
    # rises by 17 V, R4 carries off what its 0.1 nF to the gate bring: C·U·R/V.
    drain_s = 0.1e-9 * 17 * 47e3 * SLOW_OFF.resistance / lets_go_v
    assert tau * math.log(held / lets_go_v) <= measured_s
    assert measured_s <= tau * math.log(held / (lets_go_v - 0.1)) + 0.4e-3 + drain_s


@needs_simulator
def test_held_voltage_agrees_with_the_hand_calculation() -> None:
    """The pump gives 3.3 V less two Schottky drops; its load of V/47 kΩ costs I/(f·C) more."""
    curves = lamp.lamp(Drive("high", "runs"), TYPICAL, end_s=STOP_S)
    held = curves.values["v(n_hold)"][-1]
    assert held == pytest.approx(3.3 - 2 * 0.2 - (2.8 / 47e3) / (100e3 * 10e-9), abs=0.15)


@needs_simulator
def test_a_photodiode_that_is_not_biased_is_caught(altered: Callable[[str, str], None]) -> None:
    """With 1 MΩ as its load the warm lamp drives it far beyond its bias: not linear, and seen as too much."""
    altered("R18", "r-100k")
    altered("R19", "r-100k")
    checks._sensor_v.cache_clear()
    assert any("four times" in name for name in _failures(checks.light_sensor()))
    checks._sensor_v.cache_clear()


@pytest.mark.parametrize(
    ("text", "value"),
    [("4.7 kΩ", 4700.0), ("33 nF", 33e-9), ("100 µF", 1e-4), ("220 Ω", 220.0), ("1 kΩ", 1000.0)],
)
def test_marked_values(text: str, value: float) -> None:
    assert quantity(text) == pytest.approx(value)


def test_node_names_are_the_nets() -> None:
    names = [node(net) for net in _nets(lamp.build())]
    assert len(set(names)) == len(names)


def _nets(circuit: Circuit) -> list[str]:
    return sorted(circuit.nets)
