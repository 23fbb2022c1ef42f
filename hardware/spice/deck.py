"""Turn parts of the netlist into a SPICE deck, run it, and read the curves back."""

from __future__ import annotations

import re
import shutil
import subprocess
import tempfile
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from hardware.circuit import GROUND
from hardware.netlist import Circuit, Part, quantity
from hardware.spice.models import MODEL_OF, Corner, model_lines

SIMULATOR = "ngspice"


class SimulatorError(RuntimeError):
    """The simulator is missing, or did not finish; the message carries its last words."""


@dataclass(frozen=True)
class Coil:
    """A load between the two control pins of a relay module, or a sounder.

    Attributes:
        ohm: resistance [Ω]; inductance_h: inductance [H]; own_diode: the module has a plain diode inside.
    """

    ohm: float
    inductance_h: float
    own_diode: bool = False


@dataclass(frozen=True)
class Curves:
    """Time [s] and each saved quantity, point by point."""

    time_s: list[float]
    values: dict[str, list[float]]

    def after(self, name: str, start_s: float) -> list[float]:
        """Return the values from a time on."""
        return [v for t, v in zip(self.time_s, self.values[name], strict=True) if t >= start_s]

    def last_above(self, name: str, level: float) -> float:
        """Return the last time at which a value is above a level [s]; 0 if it never is."""
        above = [t for t, v in zip(self.time_s, self.values[name], strict=True) if v > level]
        return above[-1] if above else 0.0

    def first_above(self, name: str, level: float) -> float:
        """Return the first time at which a value is above a level [s]; infinite if it never is."""
        pairs = zip(self.time_s, self.values[name], strict=True)
        return next((t for t, v in pairs if v > level), float("inf"))


def have_simulator() -> bool:
    """Return whether the simulator is installed."""
    return shutil.which(SIMULATOR) is not None


def node(net: str) -> str:
    """Return the deck's name of a net."""
    return "0" if net == GROUND else "n_" + re.sub(r"\W", "p", net).lower()


class Deck:
    """A deck under construction."""

    def __init__(self, circuit: Circuit, corner: Corner) -> None:
        self._circuit = circuit
        self._corner = corner
        self._lines = ["* made from the netlist", *model_lines(corner)]

    def add(self, *lines: str) -> None:
        """Add lines of SPICE: sources and loads that stand for what is outside."""
        self._lines += lines

    def parts(self, refs: Iterable[str]) -> None:
        """Add parts of the circuit with their marked values at the corner's tolerance."""
        for ref in refs:
            self._lines.append(self._element(self._circuit.parts[ref]))

    def coil(self, ref: str, coil: Coil) -> None:
        """Add a coil between a part's two pins; its current is i(v_<ref>)."""
        high, low = (self._node(ref, pin.name) for pin in self._circuit.parts[ref].pins)
        name = ref.lower()
        self.add(f"v_{name} {high} {name}_a 0", f"r_{name} {name}_a {name}_b {coil.ohm}")
        self.add(f"l_{name} {name}_b {low} {coil.inductance_h}")
        if coil.own_diode:
            self.add(f"d_{name} {low} {high} 1N4007")

    def run(self, step_s: float, stop_s: float, save: Iterable[str]) -> Curves:
        """Run a transient analysis from rest and return the saved curves.

        Raises:
            SimulatorError: when the simulator is missing or fails.
        """
        names = list(save)
        with tempfile.TemporaryDirectory() as folder:
            data = Path(folder) / "curves.data"
            deck = Path(folder) / "deck.cir"
            deck.write_text(self._text(step_s, stop_s, names, data), encoding="utf-8")
            said = _simulate(deck)
            if not data.exists():
                raise SimulatorError(f"{SIMULATOR} gave no curves: {said[-600:]}")
            return _read(data, names)

    def _element(self, part: Part) -> str:
        nodes = [self._node(part.ref, pin.name) for pin in part.pins]
        name = part.ref.lower()
        if part.stock.shape == "resistor":
            return f"r_{name} {' '.join(nodes)} {quantity(part.stock.value) * self._corner.resistance:g}"
        if part.stock.shape in ("capacitor", "electrolytic"):
            return f"c_{name} {' '.join(nodes)} {quantity(part.stock.value) * self._corner.capacitance:g}"
        model = MODEL_OF[part.stock.key]
        if part.stock.shape == "fet":
            gate, drain, source = nodes
            return f"m_{name} {drain} {gate} {source} {model}"
        return f"{'q' if part.stock.shape in ('npn', 'pnp') else 'd'}_{name} {' '.join(nodes)} {model}"

    def _node(self, ref: str, pin: str) -> str:
        net = self._circuit.net_of(ref, pin)
        if net is None:
            raise ValueError(f"{ref}.{pin} is in no net")
        return node(net)

    def _text(self, step_s: float, stop_s: float, names: list[str], data: Path) -> str:
        control = [
            ".options method=gear reltol=2e-4",
            ".control",
            "set wr_singlescale",
            f"tran {step_s:g} {stop_s:g} 0 {step_s:g} uic",
            f"wrdata {data} {' '.join(names)}",
            ".endc",
            ".end",
        ]
        return "\n".join(self._lines + control) + "\n"


def _simulate(deck: Path) -> str:
    if not have_simulator():
        raise SimulatorError(f"{SIMULATOR} is not installed; on Debian: apt-get install {SIMULATOR}")
    done = subprocess.run(
        [SIMULATOR, "-b", deck.name],
        cwd=deck.parent,
        capture_output=True,
        text=True,
        timeout=120,
        check=False,
    )
    return done.stdout + done.stderr


def _read(data: Path, names: list[str]) -> Curves:
    rows = [[float(cell) for cell in line.split()] for line in data.read_text().splitlines() if line.strip()]
    columns = list(zip(*rows, strict=True))
    return Curves(
        list(columns[0]), {name: list(column) for name, column in zip(names, columns[1:], strict=True)}
    )
