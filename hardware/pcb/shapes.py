"""What lies on each layer of the printed board, in millimetres from its lower left corner."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from hardware.board import COLUMNS, PLACES, ROWS, SCREWS, all_holes, body, holes
from hardware.generate_font import SOURCE, read_fonts
from hardware.netlist import Circuit, Part
from hardware.pcb.router import UNIT_MM, WIDE, Step

SIZE_MM = (2 * COLUMNS * UNIT_MM, 2 * ROWS * UNIT_MM)
TRACK_MM, WIDE_MM = 0.4, 0.8
PAD_MM, BIG_PAD_MM, VIA_MM = 1.6, 2.0, 0.9
VIA_DRILL_MM, SCREW_MM = 0.5, 3.2
# Drills by key: legs by their data sheets' thickest, from memory, and 0.2 mm and more beside them.
DRILLS_MM = {"terminal-2": 1.3, "terminal-3": 1.3, "fet": 1.2, "ptc": 1.0, "tvs": 1.2}
DRILL_MM = 1.0
BIG_KEYS = tuple(DRILLS_MM)
MASK_MM = 0.1
SILK_MM, DOT_MM = 0.15, 0.2

Point = tuple[float, float]


@dataclass(frozen=True)
class Flash:
    """A pad: round, or square if it is a part's first."""

    at: Point
    size_mm: float
    is_square: bool = False


@dataclass(frozen=True)
class Stroke:
    """A line with round ends."""

    a: Point
    b: Point
    width_mm: float


@dataclass(frozen=True)
class Hole:
    """A drilled hole."""

    at: Point
    drill_mm: float


@dataclass
class Layers:
    """All of the board."""

    copper: tuple[list[Flash | Stroke], list[Flash | Stroke]] = field(default_factory=lambda: ([], []))
    mask: list[Flash] = field(default_factory=list)
    silk: list[Stroke | Flash] = field(default_factory=list)
    plated: list[Hole] = field(default_factory=list)
    bare: list[Hole] = field(default_factory=list)


def units(x: float, y: float) -> Point:
    """Return where a node of the router lies [mm]."""
    return round((x - 1) * UNIT_MM, 4), round(SIZE_MM[1] - (y - 1) * UNIT_MM, 4)


def spot(column: float, row: float) -> Point:
    """Return where a hole of the grid lies [mm]."""
    return units(2 * column, 2 * row)


def layers(circuit: Circuit, steps: list[Step]) -> Layers:
    """Return everything."""
    made = Layers()
    for (column, row), (ref, pin) in sorted(all_holes(circuit).items()):
        part = circuit.parts[ref]
        at, key = spot(column, row), part.stock.key
        # Big pads are round: the corners of a square would come too near to a wide track.
        is_big = key in BIG_KEYS
        pad = Flash(at, BIG_PAD_MM if is_big else PAD_MM, not is_big and pin == part.pins[0].name)
        for copper in made.copper:
            copper.append(pad)
        made.mask.append(Flash(at, pad.size_mm + 2 * MASK_MM, pad.is_square))
        made.plated.append(Hole(at, DRILLS_MM.get(key, DRILL_MM)))
    _lay_tracks(made, steps)
    made.bare += [Hole(spot(*screw), SCREW_MM) for screw in SCREWS]
    for part in circuit.parts.values():
        if part.on_board:
            made.silk += _silk(part)
    made.silk += _text("NO MAINS ON THIS BOARD", spot(8, 35.1))
    return made


def _lay_tracks(made: Layers, steps: list[Step]) -> None:
    vias = sorted({step.a[1:] for step in steps if step.a[0] != step.b[0]})
    for x, y in vias:
        for copper in made.copper:
            copper.append(Flash(units(x, y), VIA_MM))
        made.plated.append(Hole(units(x, y), VIA_DRILL_MM))
    for net, layer, a, b in straights(steps):
        width = WIDE_MM if net in WIDE else TRACK_MM
        made.copper[layer].append(Stroke(units(*a), units(*b), width))


def straights(steps: list[Step]) -> Iterator[tuple[str, int, tuple[int, int], tuple[int, int]]]:
    """Join steps in line to one stroke."""
    flat = {(s.net, s.a[0], *sorted((s.a[1:], s.b[1:]))) for s in steps if s.a[0] == s.b[0]}
    for along in (0, 1):
        mine = sorted(
            (net, layer, a[1 - along], a[along]) for net, layer, a, b in flat if a[along] != b[along]
        )
        runs: list[list] = []
        for net, layer, across, start in mine:
            if runs and runs[-1][:3] == [net, layer, across] and runs[-1][4] == start:
                runs[-1][4] = start + 1
            else:
                runs.append([net, layer, across, start, start + 1])
        for net, layer, across, first, last in runs:
            ends = ((first, across), (last, across)) if along == 0 else ((across, first), (across, last))
            yield net, layer, *ends


# --- silk -----------------------------------------------------------------------------------------------


def _silk(part: Part) -> list[Stroke | Flash]:
    left, top, right, bottom = body(part)
    corners = [spot(x, y) for x, y in ((left, top), (right, top), (right, bottom), (left, bottom))]
    lines: list[Stroke | Flash] = [
        Stroke(a, b, SILK_MM) for a, b in zip(corners, corners[1:] + corners[:1], strict=True)
    ]
    middle = ((left + right) / 2, (top + bottom) / 2)
    lines += _polarity(part) + _text(part.ref, _label(part, (left, top, right, bottom), middle))
    if part.stock.shape.startswith("connector"):
        column, row = holes(part)[part.pins[0].name]
        lines += _text("1", spot(column - 0.2, row - 0.75))
    return lines


def _label(part: Part, edges: tuple[float, float, float, float], middle: Point) -> Point:
    """In the body, or beside it where pads stand in the way."""
    left, top, right, bottom = edges
    half = 0.2 * len(part.ref)
    if part.stock.shape in ("fet", "npn", "pnp", "led") or part.ref == "C8":
        return spot(middle[0] - half, top - 0.4)
    if part.ref == "JP1":
        return spot(middle[0] - half, bottom + 0.75)
    if part.stock.key.startswith("header"):
        return spot(middle[0] - half, bottom + 0.75)
    if part.stock.shape.startswith("connector") and right - left > bottom - top:
        return spot(middle[0] - half, bottom - 0.15)
    return spot(middle[0] - half, middle[1] + 0.25)


def _polarity(part: Part) -> list[Stroke | Flash]:
    """A band at a cathode, a plus beside it, a thick line at a tab or a flat side: as on its body."""
    spots, shape = holes(part), part.stock.shape
    if "K" in spots:
        (ax, ay), (kx, ky) = spots["A"], spots["K"]
        share = 0.27 if shape != "led" else -0.45
        x, y = kx + (ax - kx) * share, ky + (ay - ky) * share
        dx, dy = (0.0, 0.45) if ay == ky else (0.45, 0.0)
        return [Stroke(spot(x - dx, y - dy), spot(x + dx, y + dy), 0.5)]
    if "+" in spots:
        x, y = spots["+"]
        return [
            Stroke(spot(x - 0.9, y), spot(x - 0.5, y), 0.2),
            Stroke(spot(x - 0.7, y - 0.2), spot(x - 0.7, y + 0.2), 0.2),
        ]
    if shape in ("fet", "npn", "pnp"):
        left, top, right, bottom = body(part)
        front_up = PLACES[part.ref].towards == "left"
        row = top if front_up == (shape != "fet") else bottom
        return [Stroke(spot(left, row), spot(right, row), 0.5)]
    return []


def _text(words: str, at: Point) -> list[Stroke | Flash]:
    """Dots of the display's own small letters."""
    font = read_fonts(SOURCE.read_text(encoding="utf-8"))["small"]
    dots: list[Stroke | Flash] = []
    x = at[0]
    for letter in words:
        columns = font.get(letter, b"\0\0")
        for number, column in enumerate(columns):
            for bit in range(8):
                if column >> bit & 1:
                    dots.append(
                        Flash(
                            (round(x + number * DOT_MM, 4), round(at[1] - bit * DOT_MM + 0.7, 4)),
                            DOT_MM,
                            True,
                        )
                    )
        x += (len(columns) + 1) * DOT_MM
    return dots
