"""The lamp driver with everything that the Pico and the relay module may do to it, as decks."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from hardware.circuit import build
from hardware.netlist import Circuit
from hardware.spice.deck import Coil, Curves, Deck
from hardware.spice.models import Corner

SUPPLY_V = 5.0
# Small 5 V power relays: 0.36 W, so 70 Ω; inductance 0.1 to 0.3 H from memory, no source. The second coil is
# the least resistance that the parts list allows, with a large inductance and a plain diode of its own.
RELAY = Coil(70.0, 0.15)
RELAY_WITH_DIODE = Coil(70.0, 0.15, own_diode=True)
HEAVY_RELAY = Coil(60.0, 0.3)
# An isolated DC input of a module: about 10 mA, no coil. Little current needs longer to be let go.
ISOLATED_INPUT = Coil(500.0, 1e-6)

DRIVER = (
    "R1", "R2", "Q1", "R23", "R24", "Q5", "R3", "C4", "D3", "D4", "C5", "R4", "Q2",
    "D5", "D6", "D9", "LED1", "R6", "R25", "R26", "R27", "R28", "R29", "D10", "D11",
)  # fmt: skip
SAVED = ("hold", "lamp_high", "lamp_low", "led_a", "coil_high", "coil_low")
TICK_S = 10e-6
STOP_S = 7e-3
END_S = 13e-3
# Impedance of a GPIO at its usual drive strength: 0.5 V lost at 4 mA at worst (RP2040 datasheet).
PIN_OHM = 50.0
PIN_LEAK_A = 1e-6


@dataclass(frozen=True)
class Drive:
    """What the Pico does with the lamp's two pins.

    Attributes:
        gate: 'high', 'low', 'floating', or 'drops' (high, then low at STOP_S).
        pump: 'runs', 'low', 'high', 'floating', or 'stops low', 'stops high', 'stops floating' (at STOP_S).
        duty: part of each tick for which the pump pin is high.
        failed: a leg that is shorted: 'Q5' (collector to emitter), 'Q2' (drain to source), or None.
        bridge_ohm: what lies between the coil's low leg and ground beside Q2, such as water [Ω], or None.
    """

    gate: str
    pump: str
    duty: float = 0.4
    failed: str | None = None
    bridge_ohm: float | None = None


@cache
def circuit() -> Circuit:
    return build()


@cache
def lamp(drive: Drive, corner: Corner, coil: Coil = RELAY, end_s: float = END_S) -> Curves:
    """Run the lamp driver from cold."""
    deck = Deck(circuit(), corner)
    deck.parts(DRIVER)
    deck.coil("K1", coil)
    deck.add(f"v_supply n_p5v 0 {SUPPLY_V}", *_gate(drive.gate, corner), *_pump(drive, corner))
    deck.add(f"v_logic n_3v3 0 {corner.logic_v}")
    if drive.failed:
        ends = {"Q5": "n_p5v n_lamp_high", "Q2": "n_lamp_low 0"}[drive.failed]
        deck.add(f"r_failed {ends} 0.05")
    if drive.bridge_ohm:
        deck.add(f"r_bridge n_lamp_low 0 {drive.bridge_ohm:g}")
    saved = ("i(v_k1)", *(f"v(n_{net})" for net in SAVED), "i(v_pump)")
    return deck.run(2e-6, end_s, saved)


def _gate(gate: str, corner: Corner) -> list[str]:
    high = corner.logic_v
    if gate == "floating":
        return [f"i_leak 0 n_lamp_gate {PIN_LEAK_A}"]
    levels = {
        "high": f"{high}",
        "low": "0",
        "drops": f"pwl(0 {high} {STOP_S} {high} {STOP_S + 2e-8} 0)",
    }
    return [f"v_gate gate_pin 0 {levels[gate]}", f"r_gate gate_pin n_lamp_gate {PIN_OHM}"]


def _pump(drive: Drive, corner: Corner) -> list[str]:
    high = corner.logic_v
    ticks = 10**6 if drive.pump == "runs" else round(STOP_S / TICK_S)
    wave = f"pulse(0 {high} 0 20n 20n {drive.duty * TICK_S:g} {TICK_S:g} {ticks})"
    levels = {"low": "0", "high": f"{high}", "floating": "0", "runs": wave, "stops low": wave}
    lines = [f"r_pump pump_pin n_lamp_pump {PIN_OHM}"]
    if drive.pump == "stops high":
        # The last rise stays: a second source lifts the pin from STOP_S on.
        lines += [
            f"v_pump pump_wave 0 {wave}",
            f"v_stuck pump_pin pump_wave pwl(0 0 {STOP_S} 0 {STOP_S + 2e-8} {high})",
        ]
    elif drive.pump in ("floating", "stops floating"):
        lines = [f"v_pump pump_pin 0 {wave if drive.pump == 'stops floating' else 0}"]
        lines += [
            f"v_open open 0 pwl(0 1 {STOP_S} 1 {STOP_S + 2e-8} 0)"
            if drive.pump != "floating"
            else "v_open open 0 0"
        ]
        lines += ["s_open pump_pin n_lamp_pump open 0 pin", ".model pin sw(vt=0.5 vh=0.1 ron=50 roff=10meg)"]
    else:
        lines += [f"v_pump pump_pin 0 {levels[drive.pump]}"]
    return lines
