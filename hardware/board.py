"""The perfboard: where each part stands, hole by hole, seen from the parts' side.

Holes are (column, row), 2.54 mm apart, counted from the upper left corner, 1 first. The board is the kind
with a separate pad at every hole, without strips.
"""

from __future__ import annotations

from dataclasses import dataclass

from hardware.netlist import Circuit, Part

Hole = tuple[int, int]
PITCH_MM = 2.54
COLUMNS, ROWS = 48, 35
# Screw holes, M3: the grid holes under the screw's head stay free.
SCREWS: tuple[Hole, ...] = ((2, 2), (47, 2), (2, 34), (47, 34))

DIRECTIONS: dict[str, Hole] = {"right": (1, 0), "left": (-1, 0), "down": (0, 1), "up": (0, -1)}

# Steps, in holes, from the first pin to each further pin, along the part.
STEPS: dict[str, tuple[int, ...]] = {
    "resistor": (0, 4), "capacitor": (0, 2), "electrolytic": (0, 2), "fuse": (0, 2), "diode": (0, 4),
    "zener": (0, 4), "led": (0, 1), "fet": (0, 1, 2), "npn": (0, 1, 2), "pnp": (0, 1, 2),
}  # fmt: skip
STEPS_BY_KEY: dict[str, tuple[int, ...]] = {
    "tvs": (0, 5), "terminal-2": (0, 2), "terminal-3": (0, 2, 4), "header-2": (0, 1),
    "header-4": (0, 1, 2, 3), "header-5": (0, 1, 2, 3, 4),
}  # fmt: skip

# Half width of each body, in holes, across its axis: what else must keep clear of.
HALF_WIDTH = {"resistor": 0.5, "diode": 0.55, "zener": 0.7, "fuse": 0.6, "capacitor": 0.6, "led": 0.6,
              "electrolytic": 1.9, "fet": 0.9, "npn": 0.8, "pnp": 0.8, "buffer": 0.0,
              "pico": 0.0}  # fmt: skip
HALF_WIDTH_BY_KEY = {"terminal-2": 1.6, "terminal-3": 1.6, "header-2": 0.5, "header-4": 0.5, "header-5": 0.5,
                     "c-100u": 1.25, "c-470u": 1.6}  # fmt: skip

PICO_ROW_GAP = 7
BUFFER_ROW_GAP = 3


@dataclass(frozen=True)
class Place:
    """Where a part's first pin goes, and which way the others follow."""

    column: int
    row: int
    towards: str = "right"


PLACES: dict[str, Place] = {
    "U1": Place(21, 4, "down"),
    # supply, upper right
    "J1": Place(46, 6, "down"), "F1": Place(42, 6, "left"), "D1": Place(37, 13, "up"),
    "C1": Place(42, 10, "down"),
    "D2": Place(36, 5, "left"), "C2": Place(30, 6, "down"),
    # lamp driver, upper left
    "J2": Place(3, 6, "down"), "R1": Place(19, 7, "left"), "R2": Place(15, 5, "left"),
    "Q1": Place(13, 7, "left"), "R23": Place(13, 9, "left"),
    "Q5": Place(9, 16, "left"), "R24": Place(6, 18, "right"),
    "R3": Place(19, 9, "left"), "C4": Place(15, 11, "right"), "D3": Place(19, 15, "up"),
    "D4": Place(17, 13, "down"),
    "C5": Place(13, 15, "down"), "R4": Place(15, 14, "down"), "Q2": Place(13, 12, "left"),
    "D5": Place(8, 12, "up"), "D6": Place(6, 12, "up"), "D9": Place(13, 3, "left"),
    "LED1": Place(7, 4, "down"), "R6": Place(11, 14, "left"),
    # read-back: what faces the coil stands at the coil, what faces the pins at the Pico
    "R25": Place(6, 1, "right"), "R26": Place(15, 1, "right"), "R28": Place(15, 3, "right"),
    "R27": Place(30, 10, "down"), "R29": Place(31, 10, "down"),
    "D10": Place(33, 14, "up"), "D11": Place(35, 14, "up"),
    # white light, left
    "J3": Place(3, 22, "down"), "R7": Place(19, 20, "left"), "R8": Place(13, 22, "left"),
    "Q3": Place(12, 20, "left"),
    "D7": Place(7, 24, "up"), "R30": Place(9, 24, "right"), "R31": Place(15, 24, "right"),
    "R32": Place(19, 22, "left"),
    # pedals, lower left and middle
    "J5": Place(5, 33, "right"), "J7": Place(17, 33, "right"), "JP1": Place(13, 33, "right"),
    "R14": Place(16, 26, "left"), "R16": Place(13, 28, "right"), "C7": Place(18, 26, "right"),
    "R15": Place(16, 30, "left"), "R17": Place(22, 29, "right"), "C8": Place(21, 27, "right"),
    # sounder, lower middle
    "R9": Place(27, 26, "right"), "R10": Place(31, 28, "left"), "Q4": Place(35, 28, "left"),
    "D8": Place(32, 30, "left"), "J6": Place(28, 33, "right"),
    # display, right
    "U2": Place(35, 17, "down"), "C3": Place(40, 16, "down"), "R11": Place(40, 24, "right"),
    "R12": Place(40, 20, "right"),
    "R13": Place(40, 22, "right"), "J4": Place(46, 17, "down"), "C6": Place(43, 15, "right"),
    # lamp sense, lower right
    "J8": Place(46, 29, "down"), "R18": Place(38, 27, "right"), "R19": Place(38, 31, "right"),
    "R20": Place(42, 29, "left"),
    "C9": Place(36, 31, "down"),
    # I2C, right of the Pico
    "J9": Place(31, 16, "down"), "R21": Place(33, 15, "down"), "R22": Place(32, 15, "down"),
}  # fmt: skip


def holes(part: Part) -> dict[str, Hole]:
    """Return the hole of each pin."""
    place = PLACES[part.ref]
    if part.stock.shape == "pico":
        return _two_rows(part, place, PICO_ROW_GAP)
    if part.stock.shape == "buffer":
        return _two_rows(part, place, BUFFER_ROW_GAP)
    dx, dy = DIRECTIONS[place.towards]
    steps = STEPS_BY_KEY.get(part.stock.key) or STEPS[part.stock.shape]
    return {
        pin.name: (place.column + dx * step, place.row + dy * step)
        for pin, step in zip(part.pins, steps, strict=True)
    }


def _two_rows(part: Part, place: Place, gap: int) -> dict[str, Hole]:
    """Pins run down the left side from pin 1 and up the right side, as on every such package."""
    half = len(part.pins) // 2
    spots: dict[str, Hole] = {}
    for pin in part.pins:
        number = int(pin.number)
        down = number - 1 if number <= half else 2 * half - number
        spots[pin.name] = (place.column + (0 if number <= half else gap), place.row + down)
    return spots


def all_holes(circuit: Circuit) -> dict[Hole, tuple[str, str]]:
    """Return which pin each used hole takes.

    Raises:
        ValueError: when two pins want one hole, or a pin falls off the board.
    """
    taken: dict[Hole, tuple[str, str]] = {}
    for part in circuit.parts.values():
        if not part.on_board:
            continue
        for pin, hole in holes(part).items():
            if hole in taken or not (1 <= hole[0] <= COLUMNS and 1 <= hole[1] <= ROWS):
                raise ValueError(f"{part.ref}.{pin} cannot go to {hole}: {taken.get(hole, 'off the board')}")
            taken[hole] = (part.ref, pin)
    return taken


def body(part: Part) -> tuple[float, float, float, float]:
    """Return the rectangle that a part covers: left, top, right, bottom, in holes."""
    spots = list(holes(part).values())
    xs, ys = [x for x, _ in spots], [y for _, y in spots]
    half = HALF_WIDTH_BY_KEY.get(part.stock.key, HALF_WIDTH.get(part.stock.shape, 0.5))
    end = 0.45 if part.stock.shape in ("resistor", "diode", "zener", "capacitor", "fuse") else max(half, 0.45)
    if part.stock.shape in ("fet", "npn", "pnp"):
        end = 1.0
    along_x = max(xs) - min(xs) > max(ys) - min(ys)
    ex, ey = (end, half) if along_x else (half, end)
    if part.stock.shape in ("pico", "buffer"):
        ex, ey = (0.6, 0.6) if part.stock.shape == "buffer" else (0.7, 0.8)
    return min(xs) - ex, min(ys) - ey, max(xs) + ex, max(ys) + ey
