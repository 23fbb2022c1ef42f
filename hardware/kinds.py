"""The pins of each shape of part, with the figures that the electrical rules need.

Sources: RP2040 datasheet, 'Pin electrical characteristics' at IOVDD 3.3 V (input high 2.0 V, absolute maximum
IOVDD + 0.3 V); Pico datasheet (VSYS 1.8 to 5.5 V, pinout); MAX7219 datasheet (input high 3.5 V at 5 V supply,
supply 4 to 5.5 V); 74AHCT125 datasheets (input high 2.0 V, inputs bear 5.5 V). The last two are from memory.
"""

from __future__ import annotations

from hardware.netlist import Job, PinKind
from hardware.pins import EDGE_PIN, Pin

SUPPLY_V = 5.0
LOGIC_V = 3.3
GPIO_MAX_V = 3.6
GPIO_HIGH_V = 2.0

GROUND_EDGES = (3, 8, 13, 18, 23, 28, 38)
UNUSED_EDGES = {30: "RUN", 35: "ADC_VREF", 37: "3V3_EN", 40: "VBUS"}


def _legs(*names: str) -> tuple[PinKind, ...]:
    return tuple(PinKind(name, str(number)) for number, name in enumerate(names, start=1))


_BUFFER = (
    *(
        pin
        for gate, (enable, data, out) in enumerate(((1, 2, 3), (4, 5, 6), (10, 9, 8), (13, 12, 11)), start=1)
        for pin in (
            PinKind(f"{gate}OE", str(enable), Job.INPUT, 5.5, 2.0),
            PinKind(f"{gate}A", str(data), Job.INPUT, 5.5, 2.0),
            PinKind(f"{gate}Y", str(out), Job.OUTPUT, out_v=SUPPLY_V),
        )
    ),
    PinKind("GND", "7", Job.GROUND),
    PinKind("VCC", "14", Job.POWER_IN, 5.5),
)

_DISPLAY = (
    PinKind("VCC", "1", Job.POWER_IN, 5.5),
    PinKind("GND", "2", Job.GROUND),
    PinKind("DIN", "3", Job.INPUT, 5.5, 3.5),
    PinKind("CS", "4", Job.INPUT, 5.5, 3.5),
    PinKind("CLK", "5", Job.INPUT, 5.5, 3.5),
)

SHAPES: dict[str, tuple[PinKind, ...]] = {
    "resistor": _legs("1", "2"),
    "capacitor": _legs("1", "2"),
    "electrolytic": _legs("+", "-"),
    "fuse": _legs("1", "2"),
    "diode": _legs("A", "K"),
    "zener": _legs("A", "K"),
    "led": _legs("A", "K"),
    "photodiode": _legs("A", "K"),
    "sounder": _legs("1", "2"),
    # Seen from the printed side, legs down: gate, drain, source (TO-220).
    "fet": (PinKind("G", "1", Job.INPUT), PinKind("D", "2"), PinKind("S", "3")),
    # Seen from the flat side, legs down: collector, base, emitter (TO-92, BC337).
    "npn": (PinKind("C", "1"), PinKind("B", "2", Job.INPUT), PinKind("E", "3")),
    # The same legs (TO-92, BC327): the emitter is at the supply.
    "pnp": (PinKind("C", "1"), PinKind("B", "2", Job.INPUT), PinKind("E", "3")),
    "relay-module": _legs("A1", "A2"),
    "changeover": _legs("COM", "MAKE", "REST"),
    "supply": (PinKind("+", "1", Job.POWER_OUT, out_v=SUPPLY_V), PinKind("-", "2", Job.GROUND)),
    "connector-2": _legs("1", "2"),
    "connector-3": _legs("1", "2", "3"),
    "connector-4": _legs("1", "2", "3", "4"),
    "connector-5": _legs("1", "2", "3", "4", "5"),
    "buffer": _BUFFER,
    "display": _DISPLAY,
}


def pico_pins(pins: dict[str, Pin]) -> tuple[PinKind, ...]:
    """Return all 40 pins of the Pico, named by pins.toml where it uses them."""
    legs = {edge: _gpio_leg(pin, edge) for pin in pins.values() if (edge := pin.edge)}
    legs |= {edge: PinKind(f"GND{edge}", str(edge), Job.GROUND) for edge in GROUND_EDGES}
    legs[33] = PinKind("AGND", "33", Job.GROUND)
    legs[36] = PinKind("3V3", "36", Job.POWER_OUT, out_v=LOGIC_V)
    legs[39] = PinKind("VSYS", "39", Job.POWER_IN, 5.5)
    legs |= {edge: PinKind(name, str(edge), Job.UNUSED) for edge, name in UNUSED_EDGES.items()}
    for gpio, edge in EDGE_PIN.items():
        legs.setdefault(edge, PinKind(f"GP{gpio}", str(edge), Job.UNUSED))
    return tuple(legs[edge] for edge in sorted(legs))


def _gpio_leg(pin: Pin, edge: int) -> PinKind:
    number = str(edge)
    if pin.role == "input":
        return PinKind(pin.name, number, Job.INPUT, GPIO_MAX_V, GPIO_HIGH_V)
    if pin.role == "output" or pin.name.startswith("SPI"):
        return PinKind(pin.name, number, Job.OUTPUT, GPIO_MAX_V, out_v=LOGIC_V)
    return PinKind(pin.name, number, Job.BUS, GPIO_MAX_V, GPIO_HIGH_V, LOGIC_V)
