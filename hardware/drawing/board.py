"""Drawings of the perfboard: parts from above and wiring from below, whole or step by step."""

from __future__ import annotations

from collections.abc import Iterable

from hardware.board import COLUMNS, PITCH_MM, PLACES, ROWS, SCREWS, Hole, body, holes
from hardware.drawing.canvas import ACCENT, FAINT, INK, Canvas, Point, Stroke
from hardware.netlist import Circuit, Part
from hardware.routing import Wire, corners
from hardware.steps import Step

UNIT = 2.0
MARGIN = 7.0
WIDTH = 2 * MARGIN + COLUMNS * UNIT
HEIGHT = 2 * MARGIN + ROWS * UNIT
COPPER, OLD_COPPER, OLD = "#b87333", "#dcc9b2", "#b4b4b4"
LINKS = ("#1f5fa8", "#2f7d32", "#8a2fa0", "#c2570c", "#0f7c80", "#7a5a00", "#a3231f", "#4b4b9b")


class View:
    """Board holes to drawing points: from above, or from below and so mirrored."""

    def __init__(self, canvas: Canvas, from_below: bool, top: float = 0.0) -> None:
        self.canvas = canvas
        self._from_below = from_below
        self._top = top

    def at(self, hole: Point) -> Point:
        """Return where a hole lies in the drawing."""
        x = COLUMNS + 1 - hole[0] if self._from_below else hole[0]
        return MARGIN + (x - 0.5) * UNIT, self._top + MARGIN + (hole[1] - 0.5) * UNIT

    def blank(self, title: str) -> None:
        """Draw the empty board with its numbers."""
        c, top = self.canvas, self._top
        c.text(MARGIN, top + 1.8, title, size=2, colour=ACCENT, bold=True)
        size = f"{COLUMNS} × {ROWS} holes of {PITCH_MM} mm, called column, row"
        c.text(MARGIN + COLUMNS * UNIT, top + 1.8, size, size=1.2, anchor="end", colour=FAINT)
        c.rectangle(MARGIN, top + MARGIN, COLUMNS * UNIT, ROWS * UNIT, Stroke(fill="#fbfaf5"))
        c.grid(MARGIN + UNIT / 2, top + MARGIN + UNIT / 2, COLUMNS, ROWS, UNIT, "#d5cfbd")
        for column in [1, *range(5, COLUMNS + 1, 5)]:
            x, _ = self.at((column, 1))
            for y in (top + MARGIN - 1.2, top + MARGIN + ROWS * UNIT + 1.2):
                c.text(x, y, str(column), size=1.2, anchor="middle", colour=FAINT)
        for row in [1, *range(5, ROWS + 1, 5)]:
            _, y = self.at((1, row))
            for x in (MARGIN - 1.8, MARGIN + COLUMNS * UNIT + 1.8):
                c.text(x, y, str(row), size=1.2, anchor="middle", colour=FAINT)
        for screw in SCREWS:
            c.circle(*self.at(screw), 1.3, Stroke(colour=FAINT, fill="#ffffff"))


def parts_side(circuit: Circuit) -> Canvas:
    """Draw the finished board from above."""
    canvas = Canvas(WIDTH, HEIGHT, scale=10, title="Perfboard, parts' side")
    view = View(canvas, from_below=False)
    view.blank("Parts' side")
    for part in circuit.parts.values():
        if part.on_board:
            _part(view, part, INK, "#fdf3d8")
    return canvas


def solder_side(circuit: Circuit, wires: Iterable[Wire]) -> Canvas:
    """Draw the finished board from below, as it is seen when it is turned over sideways."""
    canvas = Canvas(WIDTH, HEIGHT, scale=10, title="Perfboard, solder side")
    view = View(canvas, from_below=True)
    view.blank("Solder side, the board turned over sideways")
    on_board = {part.ref for part in circuit.parts.values() if part.on_board}
    _wiring(view, circuit, list(wires), on_board, 0)
    return canvas


def step_picture(circuit: Circuit, wires: Iterable[Wire], step: Step, before: set[str]) -> Canvas:
    """Draw one step: above the parts' side, below it the solder side; what is new is in colour."""
    canvas = Canvas(WIDTH, 2 * HEIGHT, scale=8, title=f"Step {step.number}: {step.title}")
    above, below = View(canvas, from_below=False), View(canvas, from_below=True, top=HEIGHT)
    above.blank(f"Step {step.number}: {step.title} – parts' side")
    below.blank(f"Step {step.number} – solder side, turned over sideways")
    for part in circuit.parts.values():
        if part.ref in before:
            _part(above, part, OLD, "#f7f7f7")
        elif part.ref in step.refs:
            _part(above, part, INK, "#fdf3d8")
    laid = [wire for wire in wires if wire.step <= step.number]
    _wiring(below, circuit, laid, before | set(step.refs), step.number)
    return canvas


def _wiring(view: View, circuit: Circuit, wires: list[Wire], refs: set[str], new_step: int) -> None:
    """Draw tracks under pads under links; with new_step 0 everything is in colour."""
    for wire in wires:
        if not wire.insulated:
            colour = COPPER if new_step in (0, wire.step) else OLD_COPPER
            points = [view.at(hole) for hole in corners(list(wire.holes))]
            view.canvas.line(points, Stroke(colour=colour, width=0.7))
    for ref in sorted(refs):
        _pads(view, circuit.parts[ref])
    for number, wire in enumerate(wire for wire in wires if wire.insulated):
        _link(view, wire.holes, LINKS[number % len(LINKS)] if new_step in (0, wire.step) else OLD)


def _part(view: View, part: Part, ink: str, fill: str) -> None:
    left, top, right, bottom = body(part)
    (x1, y1), (x2, y2) = view.at((left, top)), view.at((right, bottom))
    view.canvas.rectangle(x1, y1, x2 - x1, y2 - y1, Stroke(colour=ink, width=0.15, fill=fill))
    spots = holes(part)
    for name, hole in spots.items():
        _pad(view, hole, ink, square=name == next(iter(spots)))
    _polarity(view, part, ink)
    _label(view.canvas, (x1, y1, x2, y2), part, ink)
    if part.stock.shape in ("fet", "npn", "pnp") or part.stock.shape.startswith("connector"):
        for name, hole in spots.items():
            view.canvas.text(*view.at(hole), name, size=0.85, anchor="middle", colour="#ffffff", bold=True)


def _pad(view: View, hole: Hole, ink: str, square: bool) -> None:
    """A square pad is the part's first pin."""
    x, y = view.at(hole)
    if square:
        view.canvas.rectangle(x - 0.55, y - 0.55, 1.1, 1.1, Stroke(width=0, fill=ink))
    else:
        view.canvas.circle(x, y, 0.55, Stroke(width=0, fill=ink))


def _polarity(view: View, part: Part, ink: str) -> None:
    """A band at a diode's cathode, as on its body; a plus at a capacitor's."""
    spots = holes(part)
    if "K" in spots and part.stock.shape != "led":
        (ax, ay), (kx, ky) = view.at(spots["A"]), view.at(spots["K"])
        x, y = kx + (ax - kx) * 0.27, ky + (ay - ky) * 0.27
        dx, dy = (0.0, 0.9) if ay == ky else (0.9, 0.0)
        view.canvas.line([(x - dx, y - dy), (x + dx, y + dy)], Stroke(colour=ink, width=0.5))
    if part.stock.shape in ("fet", "npn", "pnp"):
        _back(view, part, ink)
    for name, hole in spots.items():
        if name == "+" or part.stock.shape == "led":
            view.canvas.text(*view.at(hole), name, size=1.0, anchor="middle", colour="#ffffff", bold=True)


def _back(view: View, part: Part, ink: str) -> None:
    """A thick line at a FET's metal tab, or at a small transistor's flat side.

    Seen from the front, legs down, a FET's pins run from left to right; so do a small transistor's, seen from
    its flat side. Pins that run to the left on the board therefore show their front to row 1.
    """
    left, top, right, bottom = body(part)
    front_up = PLACES[part.ref].towards == "left"
    tab_up = front_up if part.stock.shape != "fet" else not front_up
    row = top if tab_up else bottom
    (x1, y), (x2, _) = view.at((left, row)), view.at((right, row))
    view.canvas.line([(x1, y), (x2, y)], Stroke(colour=ink, width=0.7))


def _label(canvas: Canvas, box: tuple[float, float, float, float], part: Part, ink: str) -> None:
    x1, y1, x2, y2 = box
    middle = ((x1 + x2) / 2, (y1 + y2) / 2)
    words = "U1  Pico, USB here ▲" if part.stock.shape == "pico" else part.ref
    upright = y2 - y1 > 1.6 * (x2 - x1)
    outside = part.stock.shape.startswith("connector") or part.stock.shape in ("fet", "npn", "pnp", "led")
    if outside and upright and part.stock.shape != "led":
        canvas.text(x1 - 0.3, middle[1], words, size=1.15, anchor="end", colour=ink, bold=True)
    elif outside:
        canvas.text(middle[0], y1 - 0.8, words, size=1.15, anchor="middle", colour=ink, bold=True)
    else:
        canvas.text(*middle, words, size=1.15, anchor="middle", colour=ink, bold=True, turned=upright)


def _pads(view: View, part: Part) -> None:
    spots = holes(part)
    for name, hole in spots.items():
        _pad(view, hole, "#5a5a5a", square=name == next(iter(spots)))
    points = [view.at(hole) for hole in spots.values()]
    x, y = (sum(values) / len(values) for values in zip(*points, strict=True))
    # A row of close pins has no room for its name between them.
    crowded = len(spots) < 6 and abs(points[0][0] - points[1][0]) + abs(points[0][1] - points[1][1]) < 5
    middle = (x, y - 1.4 if crowded and points[0][1] == points[1][1] else y)
    view.canvas.text(*middle, part.ref, size=1.1, anchor="middle", colour=INK, bold=True)


def _link(view: View, ends: tuple[Hole, ...], colour: str) -> None:
    points = [view.at(end) for end in ends]
    view.canvas.line(points, Stroke(colour=colour, width=0.35))
    for x, y in points:
        view.canvas.circle(x, y, 0.45, Stroke(width=0, fill=colour))
