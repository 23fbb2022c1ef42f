"""Bring-up: what each measurement reads on a sound board, and which mistake another reading tells of.

The ten mistakes that are made most at a first board (common practice, no source) are planted in the circuit
and solved; measured values are then named by the mistake whose readings lie nearest, or by none of them.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from hardware.circuit import build
from hardware.faults.model import GATE, LIT, PUMP, REST, WHITE, Model, NoSolutionError, State
from hardware.kinds import SHAPES
from hardware.netlist import Circuit, Part, read_stock

# The measurements, in their order: the state, the net, what the page calls it, and the net that a lead with
# 1 kΩ joins to +5 V meanwhile.
MEASURES: tuple[tuple[State, str, str, str], ...] = (
    (REST, "+5V", "+5 V rail", ""),
    (REST, "VSYS", "VSYS", ""),
    (REST, "PUMP_MID", "hole 19, 11, with +5 V on it through 1 kΩ", "PUMP_MID"),
    (REST, "LAMP_HIGH", "J2.1 idle", ""),
    (REST, "LAMP_LOW", "J2.2 idle", ""),
    (REST, "COIL_HIGH", "read-back of the high leg, idle", ""),
    (REST, "COIL_LOW", "read-back of the low leg, idle", ""),
    (REST, "WHITE_READ", "read-back of the white contact, idle", ""),
    (GATE, "LAMP_HIGH", "J2.1, gate alone", ""),
    (PUMP, "HOLD", "gate of Q2, pump alone", ""),
    (PUMP, "LAMP_LOW", "J2.2, pump alone", ""),
    (LIT, "LAMP_HIGH", "J2.1 lit", ""),
    (LIT, "LAMP_LOW", "J2.2 lit", ""),
    (LIT, "LED_A", "anode of LED1 lit", ""),
    (WHITE, "WHITE_SW", "J3.2, white allowed", ""),
)
# The Pico draws some 40 mA from VSYS.
PICO_OHM, LEAD_OHM = "120 Ω", "1 kΩ"
# A reading is another one beyond this [V]: parts of 5 %, a meter of 1 %, a supply of 4.75 to 5.25 V.
APART_V = 0.35
NO_READING_V = -99.0

Readings = tuple[float, ...]


@dataclass(frozen=True)
class Mistake:
    """A name, how it is planted, and what to do."""

    name: str
    plant: Callable[[Circuit], None]
    do: str


def turn(ref: str) -> Callable[[Circuit], None]:
    """A diode the wrong way round."""

    def plant(circuit: Circuit) -> None:
        swap(circuit, (ref, "A"), (ref, "K"))

    return plant


def leave_out(ref: str) -> Callable[[Circuit], None]:
    """A part missing, or one of its joints dry."""

    def plant(circuit: Circuit) -> None:
        for ends in circuit.nets.values():
            ends.difference_update({end for end in ends if end[0] == ref})
        del circuit.parts[ref]

    return plant


def swap(circuit: Circuit, one: tuple[str, str], other: tuple[str, str]) -> None:
    """Two legs in each other's places."""
    first, second = circuit.net_of(*one), circuit.net_of(*other)
    assert first and second
    circuit.nets[first] = circuit.nets[first] - {one} | {other}
    circuit.nets[second] = circuit.nets[second] - {other} | {one}


def take(ref: str, key: str) -> Callable[[Circuit], None]:
    """Another part of the bag in its place."""

    def plant(circuit: Circuit) -> None:
        stock = read_stock()[key]
        circuit.parts[ref] = replace(circuit.parts[ref], stock=stock, pins=SHAPES[stock.shape])

    return plant


def _fet_turned(circuit: Circuit) -> None:
    swap(circuit, ("Q2", "G"), ("Q2", "S"))


def _swapped(circuit: Circuit) -> None:
    take("Q1", "bc327")(circuit)
    take("Q5", "bc337")(circuit)


MISTAKES: tuple[Mistake, ...] = (
    Mistake("D2 the wrong way round", turn("D2"), "turn it: band to hole 32, 5"),
    Mistake("D3 the wrong way round", turn("D3"), "turn it: band towards row 1"),
    Mistake("D5 the wrong way round", turn("D5"), "turn it: band towards row 1; then look at Q5"),
    Mistake("LED1 the wrong way round", turn("LED1"), "turn it: the longer leg is at hole 7, 4"),
    Mistake("Q1 and Q5 in each other's places", _swapped, "read the print: BC337 is Q1"),
    Mistake("Q2 the wrong way round", _fet_turned, "its print to row 1, its tab to row 35"),
    Mistake("C4 missing, or a dry joint at it", leave_out("C4"), "look at holes 15, 11 and 17, 11"),
    Mistake("R25 missing", leave_out("R25"), "100 kΩ at holes 6, 1 and 10, 1"),
    Mistake("R32 of 10 kΩ", take("R32", "r-10k"), "68 kΩ: blue, grey, orange"),
    Mistake("D7 the wrong way round", turn("D7"), "turn it: band towards row 1"),
)  # fmt: skip


def readings(circuit: Circuit) -> Readings:
    """Return what a meter reads, measurement by measurement [V]; NO_READING_V where nothing settles."""
    _hang(circuit, "LOAD", ("VSYS", "GND"), PICO_OHM)
    plain = Model(circuit)
    found = []
    for state, net, _, joined in MEASURES:
        model = plain
        if joined:
            led = Circuit(dict(circuit.parts), {name: set(ends) for name, ends in circuit.nets.items()})
            _hang(led, "LEAD", ("+5V", joined), LEAD_OHM)
            model = Model(led)
        try:
            found.append(model.volts(state).get(net, NO_READING_V))
        except (NoSolutionError, KeyError):
            found.append(NO_READING_V)
    return tuple(found)


def _hang(circuit: Circuit, ref: str, nets: tuple[str, str], value: str) -> None:
    """A resistor between two nets, beside the board's own."""
    stock = replace(read_stock()["r-1k"], value=value)
    circuit.add(Part(ref, stock, SHAPES["resistor"], "", True))
    for number, net in enumerate(nets, start=1):
        circuit.join(net, f"{ref}.{number}")


def planted(mistake: Mistake) -> Readings:
    """Return the readings of a board with one mistake."""
    circuit = build()
    mistake.plant(circuit)
    return readings(circuit)


def differs(one: Readings, other: Readings) -> list[int]:
    """Return the numbers of the measurements that are apart."""
    return [k for k, (a, b) in enumerate(zip(one, other, strict=True)) if abs(a - b) > APART_V]


def name_of(measured: Readings, known: dict[str, Readings]) -> list[str]:
    """Return the mistakes that read like this, the nearest first; empty if none does."""
    alike = {name: differs(measured, said) for name, said in known.items()}
    near = (name for name, apart in alike.items() if not apart)
    return sorted(near, key=lambda name: _distance(measured, known[name]))


def _distance(one: Readings, other: Readings) -> float:
    return sum((a - b) ** 2 for a, b in zip(one, other, strict=True))


def table() -> Iterator[tuple[str, str, str, str, str]]:
    """Yield each mistake, the measurement that tells first, its reading, the sound one, what to do."""
    sound = readings(build())
    for mistake in MISTAKES:
        said = planted(mistake)
        first = min(differs(sound, said), default=None)
        if first is not None:
            yield (
                mistake.name,
                MEASURES[first][2],
                f"{said[first]:.1f} V",
                f"{sound[first]:.1f} V",
                mistake.do,
            )


def main() -> int:
    """Ask for every measurement and name what the readings tell: `python -m hardware.faults.bringup`."""
    sound = readings(build())
    measured = tuple(_asked(words, said) for (_, _, words, _), said in zip(MEASURES, sound, strict=True))
    apart = differs(measured, sound)
    if not apart:
        print("every reading is that of a sound board")
        return 0
    known = {mistake.name: planted(mistake) for mistake in MISTAKES}
    names = name_of(measured, known)
    advice = {mistake.name: mistake.do for mistake in MISTAKES}
    for name in names:
        print(f"{name}: {advice[name]}")
    if not names:
        print(f"none of the ten mistakes reads like this; first look at: {MEASURES[apart[0]][2]}")
    return 1


def _asked(words: str, sound_v: float) -> float:
    """Read one value [V]; nothing typed means that it is as it should be."""
    while True:
        typed = input(f"{words} ({sound_v:.1f} V): ").strip().removesuffix("V").strip().replace(",", ".")
        try:
            return float(typed) if typed else sound_v
        except ValueError:
            print(f"{typed!r} is no voltage; type a number such as 2.5, or nothing if it is as it should be")


if __name__ == "__main__":
    raise SystemExit(main())
