"""A schematic sheet: symbols, wires, flags. It refuses a wire that the netlist does not have.

The refusal is a convenience while drawing. The proof is `reading.py`, which takes the nets from the finished
SVG by geometry alone.
"""

from __future__ import annotations

from hardware.drawing import symbols
from hardware.drawing.canvas import ACCENT, FAINT, WIRE, Canvas, Point, Stroke
from hardware.drawing.symbols import Pins, Pose
from hardware.netlist import Circuit

THICK = Stroke(colour=WIRE, width=0.22)


class Sheet:
    """A schematic under construction."""

    def __init__(self, circuit: Circuit, canvas: Canvas) -> None:
        self.canvas = canvas
        self.circuit = circuit
        self._at: dict[str, Point] = {}
        self._wires: list[tuple[str, list[Point]]] = []
        self._flags: list[tuple[str, Point]] = []

    # --- symbols ------------------------------------------------------------------------------------------

    def part(self, ref: str, x: float, y: float, turn: int = 0) -> None:
        """Place a two-legged part, a FET or a transistor by its first pin (gate, base)."""
        part = self.circuit.parts[ref]
        legs = {"fet": symbols.draw_fet, "npn": symbols.draw_npn, "pnp": symbols.draw_pnp}
        draw = legs.get(part.stock.shape, symbols.draw_two_legged)
        self._pins(ref, draw(self.canvas, part, Pose(x, y, turn)))

    def connector(self, ref: str, x: float, rows: dict[str, float]) -> None:
        """Place a connector as a column of contacts."""
        self._pins(ref, symbols.draw_connector(self.canvas, self.circuit.parts[ref], x, rows))

    def box(self, ref: str, corner: Point, size: Point, pins: Pins, numbers: bool = True) -> None:
        """Place a box with named pins."""
        part = self.circuit.parts[ref]
        self._pins(ref, symbols.draw_box(self.canvas, part, corner, size, pins, numbers))

    def block(self, title: str, x: float, y: float, w: float, h: float) -> None:
        """Frame a block and give it a title."""
        self.canvas.rectangle(x, y, w, h, Stroke(colour=FAINT, width=0.15, dash=True))
        self.canvas.text(x + 1, y + 1.6, title, size=1.7, colour=ACCENT, bold=True)

    def _pins(self, ref: str, pins: Pins) -> None:
        for name, (x, y) in pins.items():
            self._at[f"{ref}.{name}"] = (x, y)
            self.canvas.circle(x, y, 0.12, Stroke(width=0, fill=WIRE), kind="pin", ref=ref, pin=name)

    # --- connections --------------------------------------------------------------------------------------

    def wire(self, *stops: str | Point) -> None:
        """Draw a wire through pins ('R1.2') and points; corners are given as points."""
        nets = {self._net(stop) for stop in stops if isinstance(stop, str)}
        if len(nets) != 1:
            raise ValueError(f"wire {stops} touches {nets or 'no pin'}: one net is wanted")
        points = [self._at[stop] if isinstance(stop, str) else stop for stop in stops]
        for (x1, y1), (x2, y2) in zip(points, points[1:], strict=False):
            if x1 != x2 and y1 != y2:
                raise ValueError(f"wire {stops} runs aslant between {(x1, y1)} and {(x2, y2)}")
        self._wires.append((nets.pop(), points))
        self.canvas.line(points, THICK, kind="wire")

    def ground(self, end: str, at: Point | None = None) -> None:
        """Hang a ground symbol on a pin, or at a point of its net."""
        x, y = at or self._at[end]
        self.canvas.line([(x, y), (x, y + 0.8)], THICK)
        for k, half in enumerate((1.1, 0.7, 0.3)):
            self.canvas.line([(x - half, y + 0.8 + 0.4 * k), (x + half, y + 0.8 + 0.4 * k)], THICK)
        self._flag(end, (x, y), (x + 1.3, y + 1.2), "start", size=0.95)

    def supply(self, end: str, at: Point | None = None) -> None:
        """Stand a supply symbol on a pin, or at a point of its net."""
        x, y = at or self._at[end]
        self.canvas.line([(x, y), (x, y - 1.2)], THICK)
        self.canvas.line([(x - 0.8, y - 1.2), (x + 0.8, y - 1.2)], Stroke(colour=WIRE, width=0.35))
        self._flag(end, (x, y), (x, y - 2.2), "middle", size=1.2)

    def flag(self, end: str, side: str, at: Point | None = None) -> None:
        """Write the net's name at a pin, on its 'left' or 'right', with a short stub."""
        x, y = at or self._at[end]
        step, anchor = (-1.5, "end") if side == "left" else (1.5, "start")
        self.canvas.line([(x, y), (x + step, y)], THICK)
        self._flag(end, (x, y), (x + step * 1.25, y), anchor, size=1.3)

    def _flag(self, end: str, at: Point, where: Point, anchor: str, size: float) -> None:
        net = self._net(end)
        self._flags.append((net, at))
        self.canvas.text(*where, net, size, anchor, WIRE, kind="net", at=f"{at[0]:g},{at[1]:g}")

    def dots(self) -> None:
        """Put a dot where a wire or name ends on the middle of a wire; refuse a touch of two nets."""
        ends = [(net, point) for net, points in self._wires for point in (points[0], points[-1])]
        for net, point in dict.fromkeys(ends + self._flags):
            for other, points in self._wires:
                if any(_inside(point, a, b) for a, b in zip(points, points[1:], strict=False)):
                    if other != net:
                        raise ValueError(f"{net} touches {other} at {point}")
                    self.canvas.circle(*point, 0.45, Stroke(width=0, fill=WIRE), kind="dot")

    def _net(self, end: str) -> str:
        ref, _, pin = end.partition(".")
        net = self.circuit.net_of(ref, pin)
        if net is None:
            raise ValueError(f"{end} is in no net")
        return net


def _inside(point: Point, a: Point, b: Point) -> bool:
    """Whether a point lies on an upright or level stretch, its ends left out."""
    (x, y), (x1, y1), (x2, y2) = point, a, b
    if x1 == x2 == x:
        return min(y1, y2) < y < max(y1, y2)
    return y1 == y2 == y and min(x1, x2) < x < max(x1, x2)
