"""The controller's circuit, block by block: drawing, tables, parts list, board and SPICE decks start here."""

from __future__ import annotations

from hardware.kinds import SHAPES, pico_pins
from hardware.netlist import Circuit, Part, Stock, read_stock
from hardware.pins import read_pins

GROUND = "GND"
SUPPLY = "+5V"
LOGIC = "3V3"

# Symbols that stand off the board, at the end of a cable.
OFF_BOARD = {"supply", "lamp-module", "white-module", "display", "sounder", "pedal", "photodiode"}


class Builder:
    """Adds parts by their key in parts.toml."""

    def __init__(self, stock: dict[str, Stock]) -> None:
        self.circuit = Circuit()
        self.join = self.circuit.join
        self._stock = stock
        self._pico = pico_pins(read_pins())

    def add(self, ref: str, key: str, task: str) -> None:
        """Add one part."""
        entry = self._stock[key]
        pins = self._pico if entry.shape == "pico" else SHAPES[entry.shape]
        self.circuit.add(Part(ref, entry, pins, task, on_board=key not in OFF_BOARD))


def build() -> Circuit:
    """Return the whole circuit."""
    b = Builder(read_stock())
    for block in (
        _power,
        _controller,
        _lamp_driver,
        _coil,
        _read_back,
        _white,
        _sounder,
        _display,
        _pedals,
        _sense,
        _spare,
    ):
        block(b)
    return b.circuit


def _power(b: Builder) -> None:
    b.add("PS1", "supply", "feeds everything; its mains side is sealed and certified")
    b.add("J1", "terminal-2", "supply in")
    b.add("F1", "ptc", "fuse for the whole box")
    b.add("D1", "tvs", "too high or reversed supply")
    b.add("D2", "schottky-1a", "supply to VSYS, never back")
    b.add("C1", "c-470u", "bulk")
    b.add("C2", "c-100n", "high frequencies at the Pico's supply pin")
    b.join("+5V_IN", "PS1.+", "J1.1", "F1.1")
    b.join(SUPPLY, "F1.2", "D1.K", "D2.A", "C1.+")
    b.join("VSYS", "D2.K", "C2.1")
    b.join(GROUND, "PS1.-", "J1.2", "D1.A", "C1.-", "C2.2")


def _controller(b: Builder) -> None:
    b.add("U1", "pico", "the controller's chip, on two 20-way sockets")
    b.join("VSYS", "U1.VSYS")
    b.join(LOGIC, "U1.3V3")
    b.join(GROUND, "U1.AGND", *(f"U1.GND{edge}" for edge in (3, 8, 13, 18, 23, 28, 38)))


def _lamp_driver(b: Builder) -> None:
    """One switch in each leg: Q5 joins the coil to +5 V, Q2 to ground; neither alone gives it a current.

    Q5 follows the gate pin through Q1. Q2 conducts only while the pump keeps C5 charged.
    """
    b.add("R1", "r-4k7", "base series")
    b.add("R2", "r-10k", "base pull-down: a floating pin is dark")
    b.add("Q1", "bc337", "turns the high leg on")
    b.add("R23", "r-1k", "base current of the high leg")
    b.add("R24", "r-10k", "holds the high leg off")
    b.add("Q5", "bc327", "high leg")
    b.add("R3", "r-220", "pump series")
    b.add("C4", "c-10n", "pump: passes edges, never a level")
    b.add("D3", "schottky-small", "pump: recharges C4 while the pin is low")
    b.add("D4", "schottky-small", "pump: carries each rise into C5")
    b.add("C5", "c-33n", "holds Q2 on between pulses")
    b.add("R4", "r-47k", "empties C5 within a few milliseconds")
    b.add("Q2", "fet", "low leg")
    b.join("LAMP_GATE", "U1.LAMP_GATE", "R1.1")
    b.join("BASE_Q1", "R1.2", "R2.1", "Q1.B")
    b.join("LEG_DRIVE", "Q1.C", "R23.1")
    b.join("BASE_Q5", "R23.2", "R24.2", "Q5.B")
    b.join("LAMP_PUMP", "U1.LAMP_PUMP", "R3.1")
    b.join("PUMP_IN", "R3.2", "C4.1")
    b.join("PUMP_MID", "C4.2", "D3.K", "D4.A")
    b.join("HOLD", "D4.K", "C5.1", "R4.1", "Q2.G")
    b.join(SUPPLY, "R24.1", "Q5.E")
    b.join(GROUND, "R2.2", "Q1.E", "D3.A", "C5.2", "R4.2", "Q2.S")


def _coil(b: Builder) -> None:
    """The relay module between its two legs, with a clamp across it that lets it fall fast.

    The clamp touches neither rail: whichever leg opens first, the current goes round through it.
    """
    b.add("J2", "terminal-2", "to the lamp's relay module")
    b.add("K1", "lamp-module", "switches the lamp; mains only inside it")
    b.add("D5", "diode-1a", "clamp, blocks while the coil is driven")
    b.add("D6", "zener-12", "clamp, sets how fast the current falls")
    b.add("D9", "diode-small", "spares the LED the reverse voltage of the coil's kick")
    b.add("LED1", "led-red", "lit while the coil is driven")
    b.add("R6", "r-2k2", "LED current")
    b.join("LAMP_HIGH", "Q5.C", "J2.1", "K1.A1", "D6.A", "R6.1")
    b.join("LAMP_LOW", "Q2.D", "J2.2", "K1.A2", "D5.A", "D9.A", "LED1.K")
    b.join("CLAMP", "D5.K", "D6.K")
    b.join("LED_A", "R6.2", "LED1.A", "D9.K")


def _read_back(b: Builder) -> None:
    """Half of each leg's voltage, for the trial at every start; at rest R25 lifts both off the ground.

    The coil's kick takes a leg 13 V beyond a rail: D10 and D11 keep that from the pins.
    """
    b.add("R25", "r-100k", "at rest lifts the coil to half the supply")
    for ref, task in (("R26", "high leg, upper"), ("R27", "high leg, lower")):
        b.add(ref, "r-100k", f"read-back, {task} half")
    for ref, task in (("R28", "low leg, upper"), ("R29", "low leg, lower")):
        b.add(ref, "r-100k", f"read-back, {task} half")
    b.add("D10", "schottky-small", "keeps the kick of the high leg from the pin")
    b.add("D11", "schottky-small", "keeps the kick of the low leg from the pin")
    b.join("LAMP_HIGH", "R26.1")
    b.join("LAMP_LOW", "R25.2", "R28.1")
    b.join("COIL_HIGH", "R26.2", "R27.1", "D10.K", "U1.COIL_HIGH")
    b.join("COIL_LOW", "R28.2", "R29.1", "D11.A", "U1.COIL_LOW")
    b.join(SUPPLY, "R25.1")
    b.join(LOGIC, "D11.K")
    b.join(GROUND, "R27.2", "R29.2", "D10.A")


def _white(b: Builder) -> None:
    b.add("R7", "r-1k", "base series")
    b.add("R8", "r-10k", "base pull-down: unpowered is locked")
    b.add("Q3", "bc337", "white-light driver; any two of its legs joined read as closed")
    b.add("D7", "diode-1a", "coil current")
    b.add("J3", "terminal-2", "to the white light's relay module")
    b.add("K2", "white-module", "allows the dedicated white lamp")
    b.add("R30", "r-10k", "read-back without a module: the line is high while Q3 is off")
    b.add("R31", "r-47k", "read-back, upper part")
    b.add("R32", "r-68k", "read-back, lower part")
    b.join("WHITE", "U1.WHITE", "R7.1")
    b.join("BASE_Q3", "R7.2", "R8.1", "Q3.B")
    b.join("WHITE_SW", "Q3.C", "D7.A", "J3.2", "K2.A2", "R30.2", "R31.1")
    b.join("WHITE_READ", "R31.2", "R32.1", "U1.WHITE_READ")
    b.join(SUPPLY, "D7.K", "J3.1", "K2.A1", "R30.1")
    b.join(GROUND, "R8.2", "Q3.E", "R32.2")


def _sounder(b: Builder) -> None:
    b.add("R9", "r-1k", "base current")
    b.add("R10", "r-10k", "base pull-down")
    b.add("Q4", "bc337", "sounder driver")
    b.add("D8", "diode-small", "sounder's coil current")
    b.add("J6", "terminal-2", "to the sounder")
    b.add("BZ1", "sounder", "all sounds")
    b.join("BUZZER", "U1.BUZZER", "R9.1")
    b.join("BASE", "R9.2", "R10.1", "Q4.B")
    b.join("SOUNDER", "Q4.C", "D8.A", "J6.2", "BZ1.2")
    b.join(SUPPLY, "D8.K", "J6.1", "BZ1.1")
    b.join(GROUND, "R10.2", "Q4.E")


def _display(b: Builder) -> None:
    b.add("U2", "buffer", "lifts 3.3 V signals to 5 V")
    b.add("C3", "c-100n", "at the buffer's supply pin")
    b.add("C6", "c-100u", "at the display's header")
    for ref, task in (("R11", "clock"), ("R12", "data"), ("R13", "load")):
        b.add(ref, "r-33", f"{task}, series")
    b.add("J4", "header-5", "to the display's input end")
    b.add("DS1", "display", "four modules in a row")
    for gate, signal, resistor, header, pin in (
        (1, "SPI_SCK", "R11", 5, "CLK"),
        (2, "SPI_MOSI", "R12", 3, "DIN"),
        (3, "SPI_CS", "R13", 4, "CS"),
    ):
        b.join(signal, f"U1.{signal}", f"U2.{gate}A")
        b.join(f"{pin}_5V", f"U2.{gate}Y", f"{resistor}.1")
        b.join(f"{pin}_OUT", f"{resistor}.2", f"J4.{header}", f"DS1.{pin}")
    b.join(GROUND, "U2.1OE", "U2.2OE", "U2.3OE", "U2.4A", "U2.GND", "C3.2", "C6.-", "J4.2", "DS1.GND")
    # The fourth buffer is unused: held in high impedance.
    b.join(SUPPLY, "U2.4OE", "U2.VCC", "C3.1", "C6.+", "J4.1", "DS1.VCC")


def _pedals(b: Builder) -> None:
    """One pedal, or two: make contacts in parallel, rest contacts in series.

    The first pedal's common wire goes to ground through the second pedal's rest contact, or through the cap
    on JP1. Forgotten, both lines read open, and open is dark.
    """
    b.add("J5", "terminal-3", "first pedal: 1 common, 2 make, 3 rest")
    b.add("S1", "pedal", "first pedal")
    b.add("J7", "terminal-3", "second pedal: 1 common, 2 make, 3 rest")
    b.add("S2", "pedal", "second pedal, optional (then the cap on JP1 comes off)")
    b.add("JP1", "header-2", "cap on while there is only one pedal")
    b.add("R14", "r-1k", "make line pull-up")
    b.add("R15", "r-1k", "rest line pull-up")
    b.add("R16", "r-1k", "make line series")
    b.add("R17", "r-1k", "rest line series")
    b.add("C7", "c-10n", "make line filter")
    b.add("C8", "c-10n", "rest line filter")
    b.join("MAKE_LINE", "J5.2", "S1.MAKE", "J7.2", "S2.MAKE", "R14.2", "R16.1")
    b.join("REST_LINE", "J5.3", "S1.REST", "R15.2", "R17.1")
    b.join("PEDAL_CHAIN", "J5.1", "S1.COM", "J7.3", "S2.REST", "JP1.1")
    b.join("PEDAL_MAKE", "R16.2", "C7.1", "U1.PEDAL_MAKE")
    b.join("PEDAL_REST", "R17.2", "C8.1", "U1.PEDAL_REST")
    b.join(LOGIC, "R14.1", "R15.1")
    b.join(GROUND, "J7.1", "S2.COM", "JP1.2", "C7.2", "C8.2")


def _sense(b: Builder) -> None:
    b.add("J8", "terminal-2", "lamp sense: 1 feed, 2 signal")
    b.add("PD1", "photodiode", "looks at the lamp, optional")
    b.add("R18", "r-1k", "feed series: a short in the cable does no harm")
    b.add("R19", "r-100k", "load: current into voltage")
    b.add("R20", "r-10k", "pin series")
    b.add("C9", "c-220n", "smooths flicker")
    b.join(LOGIC, "R18.1")
    b.join("SENSE_FEED", "R18.2", "J8.1", "PD1.K")
    b.join("SENSE_LINE", "J8.2", "PD1.A", "R19.1", "R20.1")
    b.join("SENSE", "R20.2", "C9.1", "U1.SENSE")
    b.join(GROUND, "R19.2", "C9.2")


def _spare(b: Builder) -> None:
    b.add("J9", "header-4", "I²C, kept free: 1 3V3, 2 GND, 3 SDA, 4 SCL")
    b.add("R21", "r-4k7", "data pull-up")
    b.add("R22", "r-4k7", "clock pull-up")
    b.join(LOGIC, "J9.1", "R21.1", "R22.1")
    b.join("I2C_SDA", "U1.I2C_SDA", "J9.3", "R21.2")
    b.join("I2C_SCL", "U1.I2C_SCL", "J9.4", "R22.2")
    b.join(GROUND, "J9.2")
