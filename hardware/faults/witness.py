"""The same faults asked of the circuit simulator: what the coil draws with gate, pump and pedal at rest."""

from __future__ import annotations

from functools import cache

from hardware.circuit import GROUND, LOGIC, SUPPLY, build
from hardware.faults.model import Fault
from hardware.netlist import Circuit
from hardware.spice.deck import Deck, node
from hardware.spice.lamp import DRIVER, RELAY
from hardware.spice.models import SLOW_OFF

_RAILS = {GROUND, SUPPLY, LOGIC, "LAMP_GATE", "LAMP_PUMP"}
_SETTLED_S = 6e-3


@cache
def _circuit() -> Circuit:
    return build()


@cache
def _nets() -> frozenset[str]:
    ends = [(ref, pin.name) for ref in DRIVER for pin in _circuit().parts[ref].pins]
    return frozenset(net for end in ends if (net := _circuit().net_of(*end))) | _RAILS


def holds(fault: Fault) -> bool:
    """Return whether the deck of the lamp driver has all that the fault is about."""
    here = fault.opened is None or fault.opened in DRIVER
    return here and all(net in _nets() for pair in fault.joined for net in pair)


def coil_ma(fault: Fault) -> float:
    """Return the current in the coil at rest [mA], at the corner that lets go last."""
    deck = Deck(_circuit(), SLOW_OFF)
    deck.parts(ref for ref in DRIVER if ref != fault.opened)
    deck.coil("K1", RELAY)
    deck.add(
        "v_supply feed 0 5", f"r_feed feed {node(SUPPLY)} 0.1", f"v_logic {node(LOGIC)} 0 {SLOW_OFF.logic_v}"
    )
    for name in ("LAMP_GATE", "LAMP_PUMP"):
        deck.add(f"v_{name} {name} 0 0", f"r_{name} {name} {node(name)} 50")
    for number, (one, other) in enumerate(fault.joined):
        deck.add(f"r_fault{number} {node(one)} {node(other)} 0.05")
    curves = deck.run(1e-5, 2 * _SETTLED_S, ("i(v_k1)",))
    return 1e3 * max(curves.after("i(v_k1)", _SETTLED_S), key=abs)
