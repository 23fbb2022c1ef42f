"""The circuit in one state, solved for its steady voltages (Newton on the nodes), with one fault in it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import numpy as np

from hardware.circuit import GROUND, LOGIC
from hardware.faults.devices import OF_KEY, PINS_OF_SHAPE, Current
from hardware.netlist import Circuit, Part, quantity

SUPPLY_V, LOGIC_V = 5.0, 3.3
PIN_OHM = 50.0
# A short, a bridge, a contact [Ω].
SHORT_OHM = 0.05
LOADS_OHM = {"lamp-module": 70.0, "white-module": 70.0, "sounder": 42.0, "ptc": 0.1}
# C4 carries a charge C·V at each of 100 000 edges a second: 1/(f·C).
PUMP_OHM = 1e3
SCHOTTKY_V = 0.25
LEAST_SIEMENS = 1e-9
STEPS = 200


class NoSolutionError(ArithmeticError):
    """Newton's iteration does not settle; the message names the fault and the state."""


@dataclass(frozen=True)
class State:
    """What the chip and the foot do: levels of the pins, 'pumped' beside them, and the pedal."""

    name: str
    gate: int = 0
    pump: int = 0
    pumped: bool = False
    white: int = 0
    pressed: bool = False


REST = State("rest")
GATE = State("gate alone", gate=1)
LEVEL = State("pump at a level", pump=1)
PUMP = State("pump alone", pumped=True)
LIT = State("lit", gate=1, pumped=True)
WHITE = State("white allowed", white=1)
PRESSED = State("pressed", pressed=True)
STATES = (REST, GATE, LEVEL, PUMP, LIT, WHITE, PRESSED)


@dataclass(frozen=True)
class Fault:
    """`opened`: a part that is not there, or None. `joined`: pairs of nets that touch."""

    name: str
    opened: str | None = None
    joined: tuple[tuple[str, str], ...] = ()


SOUND = Fault("no fault")
Volts = dict[str, float]


class Model:
    """One circuit; `volts` solves it, and starts from what the sound circuit does in that state."""

    def __init__(self, circuit: Circuit) -> None:
        self._circuit = circuit
        self._index = {net: n for n, net in enumerate(n for n in circuit.nets if n != GROUND)}
        self._sound: dict[str, np.ndarray] = {}

    def volts(self, state: State, fault: Fault = SOUND) -> Volts:
        """Return the voltage of every net [V]."""
        extra = self._pump(state, fault) if state.pumped else []
        start = self._sound.get(state.name)
        what = f"{fault.name}, {state.name}"
        try:
            x = self._settle(self._elements(state, fault) + extra, start, what)
        except NoSolutionError:
            # From rest it may find what it did not find from the sound circuit.
            x = self._settle(self._elements(state, fault) + extra, None, what)
        if fault is SOUND:
            self._sound[state.name] = x
        return {GROUND: 0.0} | {net: float(x[n]) for net, n in self._index.items()}

    def _pump(self, state: State, fault: Fault) -> list[tuple]:
        """Return a source that stands for C4, fed by edges of the size that its near side really makes."""
        if fault.opened in ("C4", "D3"):
            return []
        near, far = self._net("C4", "1"), self._net("C4", "2")
        if (self._net("D3", "A"), self._net("D3", "K")) != (GROUND, far):
            return []
        rest = State("rest of it", gate=state.gate, white=state.white)
        level = State("level of it", gate=state.gate, white=state.white, pump=1)
        swing_v = self.volts(level, fault)[near] - self.volts(rest, fault)[near]
        volts = max(0.0, swing_v - SCHOTTKY_V)
        return [("source", far, GROUND, PUMP_OHM, volts)]

    def _net(self, ref: str, pin: str) -> str:
        return self._circuit.net_of(ref, pin) or ""

    def _elements(self, state: State, fault: Fault) -> list[tuple]:
        elements = [
            element
            for part in self._circuit.parts.values()
            if part.ref != fault.opened
            for element in self._element(part, state)
        ]
        return elements + [("ohm", a, b, SHORT_OHM) for a, b in fault.joined]

    def _element(self, part: Part, state: State) -> list[tuple]:
        key, shape, ref = part.stock.key, part.stock.shape, part.ref
        if key in OF_KEY:
            names = PINS_OF_SHAPE.get(shape, ("A", "K"))
            return [("law", OF_KEY[key], tuple(self._net(ref, name) for name in names))]
        if shape == "resistor":
            return [("ohm", self._net(ref, "1"), self._net(ref, "2"), quantity(part.stock.value))]
        if key in LOADS_OHM:
            return [("ohm", *(self._net(ref, pin.name) for pin in part.pins), LOADS_OHM[key])]
        if shape == "supply":
            return [("source", self._net(ref, "+"), self._net(ref, "-"), SHORT_OHM, SUPPLY_V)]
        if ref in ("S1", "JP1"):
            return self._contacts(ref, state)
        return self._chip(state) if shape == "pico" else []

    def _contacts(self, ref: str, state: State) -> list[tuple]:
        if ref == "JP1":
            return [("ohm", self._net(ref, "1"), self._net(ref, "2"), SHORT_OHM)]
        closed = "MAKE" if state.pressed else "REST"
        return [("ohm", self._net(ref, "COM"), self._net(ref, closed), SHORT_OHM)]

    def _chip(self, state: State) -> list[tuple]:
        levels = {"LAMP_GATE": state.gate, "LAMP_PUMP": state.pump, "WHITE": state.white, "BUZZER": 0}
        pins = [("source", name, GROUND, PIN_OHM, LOGIC_V * level) for name, level in levels.items()]
        # The chip's own regulator: it gives, and takes next to nothing.
        return [*pins, ("source", LOGIC, GROUND, 0.5, LOGIC_V)]

    def _settle(self, elements: list[tuple], start: np.ndarray | None, what: str) -> np.ndarray:
        x = np.zeros(len(self._index)) if start is None else start.copy()
        for step in range(STEPS):
            jacobian, flow = self._stamp(elements, x)
            move = np.linalg.solve(jacobian, -flow)
            most = float(np.abs(move).max())
            x = x + move * min(1.0, (0.3 if step < 100 else 0.05) / most if most else 1.0)
            if most < 1e-7:
                return x
        raise NoSolutionError(what)

    def _stamp(self, elements: list[tuple], x: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
        """Return the derivative of the current out of each node, and that current [A]."""
        jacobian = np.eye(len(x)) * LEAST_SIEMENS
        flow = x * LEAST_SIEMENS
        for kind, *rest in elements:
            if kind == "law":
                self._stamp_law(jacobian, flow, x, *rest)
            else:
                a, b, ohm, *volts = rest
                self._stamp_ohm(jacobian, flow, x, (a, b), ohm, volts[0] if volts else 0.0)
        return jacobian, flow

    def _stamp_ohm(
        self,
        jacobian: np.ndarray,
        flow: np.ndarray,
        x: np.ndarray,
        ends: tuple[str, str],
        ohm: float,
        source_v: float,
    ) -> None:
        nodes = [self._index.get(net) for net in ends]
        volts = [0.0 if n is None else x[n] for n in nodes]
        amps = (volts[0] - volts[1] - source_v) / ohm
        for n, sign in zip(nodes, (1, -1), strict=True):
            if n is None:
                continue
            flow[n] += sign * amps
            for m, other in zip(nodes, (1, -1), strict=True):
                if m is not None:
                    jacobian[n, m] += sign * other / ohm

    def _stamp_law(
        self, jacobian: np.ndarray, flow: np.ndarray, x: np.ndarray, law: Current, nets: tuple[str, ...]
    ) -> None:
        nodes = [self._index.get(net) for net in nets]
        volts = [0.0 if n is None else float(x[n]) for n in nodes]
        amps = law(*volts)
        for n, into in zip(nodes, amps, strict=True):
            if n is not None:
                flow[n] += into
        for k, m in enumerate(nodes):
            if m is None:
                continue
            moved = law(*(v + (1e-6 if j == k else 0.0) for j, v in enumerate(volts)))
            for n, before, after in zip(nodes, amps, moved, strict=True):
                if n is not None:
                    jacobian[n, m] += (after - before) / 1e-6


@cache
def sound_model() -> Model:
    """The model of the circuit as it is, with every state solved once."""
    from hardware.circuit import build

    model = Model(build())
    for state in STATES:
        model.volts(state)
    return model
