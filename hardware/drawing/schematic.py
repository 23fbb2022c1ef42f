"""The schematic: where each part of the circuit stands on the sheet, and how the wires run."""

from __future__ import annotations

from hardware.circuit import build
from hardware.drawing.canvas import FAINT, Canvas
from hardware.drawing.sheet import Sheet
from hardware.netlist import Circuit, Job

WIDTH, HEIGHT = 220.0, 190.0


def draw(circuit: Circuit | None = None) -> Canvas:
    """Return the drawing of the whole circuit."""
    circuit = circuit or build()
    sheet = Sheet(circuit, Canvas(WIDTH, HEIGHT, title="Footlight controller: schematic"))
    for block in (_power, _lamp, _read_back, _pico, _sounder, _display, _sense, _spare, _white, _pedals):
        block(sheet)
    sheet.dots()
    note = "Wires meet only where there is a dot; equal names are one net. Made from hardware/circuit.py."
    sheet.canvas.text(4, HEIGHT - 2, note, size=1.3, colour=FAINT)
    return sheet.canvas


def _power(s: Sheet) -> None:
    s.block("Supply", 2, 2, 78, 30)
    s.box("PS1", (4, 10), (7, 14), {"+": (13, 14), "-": (13, 22)}, numbers=False)
    s.canvas.text(7.5, 8, "PS1", anchor="middle", bold=True)
    s.canvas.text(4, 26, "5 V, 2 A, certified", size=1.2)
    s.connector("J1", 18, {"1": 14, "2": 22})
    s.part("F1", 22, 14)
    s.part("D1", 38, 24, 270)
    s.part("C1", 50, 18, 90)
    s.part("D2", 58, 14)
    s.part("C2", 67, 18, 90)
    s.wire("PS1.+", "J1.1")
    s.wire("J1.1", "F1.1")
    s.wire("F1.2", "D2.A")
    s.supply("F1.2", (32, 14))
    s.wire("D1.K", (38, 14))
    s.wire("C1.+", (50, 14))
    s.wire("D2.K", (70, 14))
    s.wire("C2.1", (67, 14))
    s.flag("D2.K", "right", (70, 14))
    s.wire("PS1.-", "J1.2")
    s.wire("J1.2", (22, 22))
    s.ground("J1.2", (22, 22))
    for end in ("D1.A", "C1.-", "C2.2"):
        s.ground(end)


def _lamp(s: Sheet) -> None:
    s.block("Lamp driver: one switch in each leg of the coil", 2, 34, 78, 70)
    for ref, x, y, turn in (
        ("R1", 13, 60, 0), ("R2", 20, 62, 90), ("Q1", 21, 60, 0), ("R23", 25, 54, 270),
        ("R24", 36, 40, 90), ("Q5", 44, 46, 0),
        ("R3", 13, 90, 0), ("C4", 21, 90, 0), ("D3", 29, 98, 270), ("D4", 31, 90, 0),
        ("C5", 40, 92, 90), ("R4", 47, 92, 90), ("Q2", 55, 90, 0),
        ("D6", 54, 58, 90), ("D5", 54, 76, 270), ("R6", 42, 58, 90),
        ("LED1", 42, 66, 90), ("D9", 31, 72, 270),
    ):  # fmt: skip
        s.part(ref, x, y, turn)
    s.connector("J2", 65, {"1": 58, "2": 76})
    s.box("K1", (71, 54), (8, 26), {"A1": (69, 58), "A2": (69, 76)}, numbers=False)
    s.canvas.text(75, 52.6, "K1", anchor="middle", bold=True)
    for k, words in enumerate(("lamp", "relay", "module")):
        s.canvas.text(78.6, 65 + 1.6 * k, words, size=1.1, anchor="end")
    _high_leg(s)
    _low_leg(s)
    _clamp(s)


def _high_leg(s: Sheet) -> None:
    s.flag("R1.1", "left")
    s.wire("R1.2", "Q1.B")
    s.wire("R2.1", (20, 60))
    s.ground("R2.2")
    s.ground("Q1.E")
    s.wire("Q1.C", "R23.1")
    s.wire("R23.2", (25, 46), "Q5.B")
    s.wire("R24.2", (36, 46))
    s.supply("R24.1")
    s.supply("Q5.E")
    s.wire("Q5.C", (48, 58))


def _low_leg(s: Sheet) -> None:
    s.flag("R3.1", "left")
    s.wire("R3.2", "C4.1")
    s.wire("C4.2", "D4.A")
    s.wire("D3.K", (29, 90))
    s.ground("D3.A")
    s.wire("D4.K", "Q2.G")
    s.wire("C5.1", (40, 90))
    s.wire("R4.1", (47, 90))
    for end in ("C5.2", "R4.2", "Q2.S"):
        s.ground(end)
    s.wire("Q2.D", (59, 76))


def _clamp(s: Sheet) -> None:
    s.wire("R6.1", "D6.A")
    s.wire("D6.A", "J2.1")
    s.wire("J2.1", "K1.A1")
    s.flag("J2.1", "left", (42, 58))
    s.wire("D9.A", (31, 76), "D5.A")
    s.wire("D5.A", "J2.2")
    s.wire("J2.2", "K1.A2")
    s.flag("D9.A", "left", (31, 76))
    s.wire("LED1.K", (42, 76))
    s.wire("D5.K", "D6.K")
    s.wire("R6.2", "LED1.A")
    s.wire("D9.K", (31, 64), "R6.2")


def _read_back(s: Sheet) -> None:
    s.block("Read-back: each leg, halved", 2, 158, 134, 26)
    for ref, x, y, turn in (
        ("R26", 18, 170, 0), ("R27", 34, 172, 90), ("D10", 44, 178, 270),
        ("R25", 76, 162, 90), ("R28", 80, 170, 0), ("R29", 96, 172, 90), ("D11", 106, 170, 270),
    ):  # fmt: skip
        s.part(ref, x, y, turn)
    s.flag("R26.1", "left")
    s.wire("R26.2", (50, 170))
    s.flag("R26.2", "right", (50, 170))
    s.wire("R27.1", (34, 170))
    s.wire("D10.K", (44, 170))
    s.wire("R28.1", (74, 170))
    s.flag("R28.1", "left", (74, 170))
    s.wire("R25.2", (76, 170))
    s.supply("R25.1")
    s.wire("R28.2", "D11.A")
    s.wire("D11.A", (112, 170))
    s.wire("R29.1", (96, 170))
    s.flag("R28.2", "right", (112, 170))
    s.supply("D11.K")
    for end in ("R27.2", "R29.2", "D10.A"):
        s.ground(end)


def _pico(s: Sheet) -> None:
    s.block("Controller: numbers are pins of the board's edge", 84, 2, 52, 58)
    part = s.circuit.parts["U1"]
    places = {}
    for pin in part.pins:
        edge = int(pin.number)
        places[pin.name] = (95.0, 7 + 2.5 * (edge - 1)) if edge <= 20 else (125.0, 7 + 2.5 * (40 - edge))
    s.box("U1", (98, 5), (24, 51.5), places)
    s.canvas.text(110, 58, "U1  Raspberry Pi Pico, from above, USB up", size=1.3, anchor="middle", bold=True)
    for pin in part.pins:
        if pin.job is not Job.UNUSED:
            s.flag(f"U1.{pin.name}", "left" if int(pin.number) <= 20 else "right")


def _sounder(s: Sheet) -> None:
    s.block("Sounder", 84, 64, 52, 40)
    for ref, x, y, turn in (
        ("R9", 93, 90, 0),
        ("R10", 101, 92, 90),
        ("Q4", 105, 90, 0),
        ("D8", 112, 80, 270),
    ):
        s.part(ref, x, y, turn)
    s.connector("J6", 121.5, {"1": 74, "2": 80})
    s.part("BZ1", 125, 74, 90)
    s.flag("R9.1", "left")
    s.wire("R9.2", "Q4.B")
    s.wire("R10.1", (101, 90))
    s.ground("R10.2")
    s.ground("Q4.E")
    s.wire("Q4.C", (109, 80), "J6.2")
    s.wire("D8.A", (112, 80), "J6.2")
    s.wire("J6.2", "BZ1.2")
    s.wire("D8.K", "J6.1")
    s.wire("J6.1", "BZ1.1")
    s.supply("D8.K")


def _display(s: Sheet) -> None:
    s.block("Display: 3.3 V to 5 V", 140, 2, 78, 54)
    left = {"2A": 16, "3A": 22, "1A": 28, "4A": 32, "1OE": 35, "2OE": 38, "3OE": 41, "4OE": 46}
    right = {"2Y": 16, "3Y": 22, "1Y": 28, "4Y": 32}
    pins = {name: (158.0, float(y)) for name, y in left.items()}
    pins |= {name: (174.0, float(y)) for name, y in right.items()}
    s.box("U2", (160, 12), (12, 36), pins | {"VCC": (166.0, 10.0), "GND": (166.0, 50.0)})
    s.canvas.text(163, 9.4, "U2", anchor="end", bold=True)
    s.canvas.text(172.6, 49.6, "74AHCT125", size=1.2)
    s.box("DS1", (200, 5), (15, 26), {name: (198, y) for name, y in _DISPLAY_ROWS.items()}, numbers=False)
    s.canvas.text(207.5, 3.4, "DS1", anchor="middle", bold=True)
    for k, words in enumerate(("4 × MAX7219", "32 × 8", "red LEDs")):
        s.canvas.text(214.5, 16 + 2 * k, words, size=1.2, anchor="end")
    s.connector("J4", 192, {str(k): y for k, y in enumerate(_DISPLAY_ROWS.values(), start=1)})
    for gate, ref, name, y in ((2, "R12", "DIN", 16), (3, "R13", "CS", 22), (1, "R11", "CLK", 28)):
        s.flag(f"U2.{gate}A", "left")
        s.part(ref, 177, y)
        s.wire(f"U2.{gate}Y", f"{ref}.1")
        s.wire(f"{ref}.2", f"J4.{list(_DISPLAY_ROWS).index(name) + 1}")
    for k, name in enumerate(_DISPLAY_ROWS, start=1):
        s.wire(f"J4.{k}", f"DS1.{name}")
    s.wire("J4.1", (187, 8))
    s.supply("J4.1", (187, 8))
    s.wire("J4.2", (187, 12))
    s.ground("J4.2", (187, 12))
    s.supply("U2.VCC")
    s.ground("U2.GND")
    s.wire("U2.4A", (151, 32), (151, 42))
    for end, y in (("U2.1OE", 35), ("U2.2OE", 38), ("U2.3OE", 41)):
        s.wire(end, (151, y))
    s.ground("U2.4A", (151, 42))
    s.wire("U2.4OE", (144, 46))
    s.supply("U2.4OE", (144, 46))
    for ref, first, second, x in (("C3", "1", "2", 184), ("C6", "+", "-", 197)):
        s.part(ref, x, 41, 90)
        s.supply(f"{ref}.{first}")
        s.ground(f"{ref}.{second}")


_DISPLAY_ROWS = {"VCC": 8.0, "GND": 12.0, "DIN": 16.0, "CS": 22.0, "CLK": 28.0}


def _sense(s: Sheet) -> None:
    s.block("Lamp sense, optional", 140, 58, 78, 26)
    for ref, x, y, turn in (
        ("R18", 176, 66, 0),
        ("R20", 178, 72, 180),
        ("R19", 184, 74, 90),
        ("C9", 164, 74, 90),
    ):
        s.part(ref, x, y, turn)
    s.connector("J8", 196, {"1": 66, "2": 72})
    s.part("PD1", 206, 72, 270)
    s.wire("R18.1", (170, 66))
    s.supply("R18.1", (170, 66))
    s.wire("R18.2", "J8.1")
    s.wire("J8.1", "PD1.K")
    s.wire("R20.1", "J8.2")
    s.wire("J8.2", "PD1.A")
    s.wire("R19.1", (184, 72))
    s.ground("R19.2")
    s.wire("R20.2", (158, 72))
    s.wire("C9.1", (164, 72))
    s.ground("C9.2")
    s.flag("R20.2", "left", (158, 72))


def _spare(s: Sheet) -> None:
    s.block("I²C, kept free", 140, 86, 78, 20)
    s.part("R21", 176, 90, 90)
    s.part("R22", 186, 90, 90)
    s.connector("J9", 202, {"1": 90, "2": 94, "3": 98, "4": 102})
    s.wire("R21.1", "R22.1", "J9.1")
    s.supply("R21.1")
    s.wire("J9.2", (196, 94))
    s.ground("J9.2", (196, 94))
    s.wire("J9.3", (168, 98))
    s.wire("R21.2", (176, 98))
    s.wire("J9.4", (168, 102))
    s.wire("R22.2", (186, 102))
    s.flag("J9.3", "left", (168, 98))
    s.flag("J9.4", "left", (168, 102))


def _white(s: Sheet) -> None:
    s.block("White light", 2, 108, 60, 48)
    for ref, x, y, turn in (
        ("R7", 12, 144, 0), ("R8", 22, 146, 90), ("Q3", 28, 144, 0), ("D7", 36, 124, 270),
        ("R30", 26, 114, 90), ("R31", 22, 124, 180), ("R32", 16, 126, 90),
    ):  # fmt: skip
        s.part(ref, x, y, turn)
    s.connector("J3", 45, {"1": 118, "2": 124})
    s.box("K2", (51, 114), (9, 14), {"A1": (49, 118), "A2": (49, 124)}, numbers=False)
    s.canvas.text(55.5, 112.6, "K2", anchor="middle", bold=True)
    for k, words in enumerate(("white", "relay", "module")):
        s.canvas.text(59.5, 119.5 + 1.6 * k, words, size=1.1, anchor="end")
    s.flag("R7.1", "left")
    s.wire("R7.2", "Q3.B")
    s.wire("R8.1", (22, 144))
    s.ground("R8.2")
    s.ground("Q3.E")
    s.wire("Q3.C", (32, 124))
    s.wire("R31.1", "D7.A")
    s.wire("R30.2", (26, 124))
    s.supply("R30.1")
    s.wire("R31.2", (14, 124))
    s.wire("R32.1", (16, 124))
    s.ground("R32.2")
    s.flag("R31.2", "left", (14, 124))
    s.wire("J3.2", "K2.A2")
    s.wire("D7.A", (36, 124), "J3.2")
    s.wire("D7.K", "J3.1")
    s.wire("J3.1", "K2.A1")
    s.supply("D7.K")


def _pedals(s: Sheet) -> None:
    s.block("Pedals: make contacts in parallel, rest contacts in series", 66, 108, 152, 48)
    for y, pull, series, filter_ref, x in ((124, "R14", "R16", "C7", 102), (140, "R15", "R17", "C8", 110)):
        s.part(series, 98, y, 180)
        s.part(filter_ref, 85, y + 2, 90)
        s.part(pull, x, y - 8, 90)
        s.supply(f"{pull}.1")
        s.wire(f"{pull}.2", (x, y))
        s.wire(f"{series}.2", (82, y))
        s.wire(f"{filter_ref}.1", (85, y))
        s.flag(f"{series}.2", "left", (82, y))
        s.ground(f"{filter_ref}.2")
    for ref, pedal, x in (("J5", "S1", 126), ("J7", "S2", 182)):
        s.connector(ref, x, {"2": 124, "3": 140, "1": 146})
        _changeover(s, pedal, x + 8)
        s.wire(f"{ref}.2", f"{pedal}.MAKE")
        s.wire(f"{ref}.3", f"{pedal}.REST")
        s.wire(f"{ref}.1", f"{pedal}.COM")
    s.wire("R16.1", "J5.2")
    s.wire("R17.1", "J5.3")
    s.wire("J7.2", (176, 124), (176, 116), (120, 116), (120, 124))
    s.wire("J5.1", (120, 146), (120, 152), (160, 152), (160, 140), "J7.3")
    s.part("JP1", 164, 146)
    s.canvas.text(167, 150, "cap on: one pedal", size=1.1, anchor="middle")
    s.canvas.text(198, 150, "optional", size=1.1, anchor="middle")
    s.wire("JP1.1", (160, 146))
    s.wire("JP1.2", (174, 146))
    s.wire("J7.1", (174, 146))
    s.ground("J7.1", (174, 146))


def _changeover(s: Sheet, ref: str, x: float) -> None:
    """Draw a pedal: the blade lies on REST and goes over to MAKE when pressed."""
    pins = {"MAKE": (x, 124.0), "REST": (x, 140.0), "COM": (x, 146.0)}
    s.box(ref, (x + 2, 120), (14, 28), pins, numbers=False)
    c = s.canvas
    c.text(x + 9, 118.6, ref, anchor="middle", bold=True)
    for dx, y in ((9, 124), (9, 140), (14, 132)):
        c.circle(x + dx, y, 0.5)
    for y in (124, 140):
        c.line([(x + 6.4, y), (x + 8.5, y)])
    c.line([(x + 13.7, 132.4), (x + 9.3, 139.5)])
    c.line([(x + 6.0, 146), (x + 14, 146), (x + 14, 132.5)])
    c.text(x + 3, 133, "pressed:", size=1.1)
    c.text(x + 3, 134.6, "to MAKE", size=1.1)
