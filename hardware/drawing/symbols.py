"""How each shape of part looks in the schematic, and where its pins are.

A symbol is drawn in its own axes: the first pin of a two-legged part at (0, 0), the second at (6, 0); it is
then turned about the first pin by 0, 90 (downwards), 180 or 270 (upwards) degrees.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from hardware.drawing.canvas import Canvas, Point, Stroke
from hardware.netlist import Part

LENGTH = 6.0
BODY = Stroke(fill="#ffffff")
SOLID = Stroke(fill="#1a1a1a")
Pins = dict[str, Point]


@dataclass(frozen=True)
class Pose:
    """Place and turn of a symbol."""

    x: float
    y: float
    turn: int = 0

    def at(self, dx: float, dy: float) -> Point:
        """Return where a point of the symbol comes to lie."""
        sin, cos = {0: (0, 1), 90: (1, 0), 180: (0, -1), 270: (-1, 0)}[self.turn]
        return (round(self.x + dx * cos - dy * sin, 2), round(self.y + dx * sin + dy * cos, 2))

    def path(self, *points: Point) -> list[Point]:
        """Return the points of the symbol where they come to lie."""
        return [self.at(*point) for point in points]


def draw_two_legged(canvas: Canvas, part: Part, pose: Pose) -> Pins:
    """Draw any part with two pins in line, and name it."""
    body_from, body_to = _BODIES[part.stock.shape](canvas, pose)
    canvas.line(pose.path((0, 0), (body_from, 0)))
    canvas.line(pose.path((body_to, 0), (LENGTH, 0)))
    _name(canvas, part, pose)
    first, second = (pin.name for pin in part.pins)
    return {first: pose.at(0, 0), second: pose.at(LENGTH, 0)}


def _name(canvas: Canvas, part: Part, pose: Pose) -> None:
    x, y = pose.at(LENGTH / 2, 0)
    if pose.turn in (0, 180):
        canvas.text(x, y - 2.3, part.ref, anchor="middle", bold=True)
        canvas.text(x, y + 2.2, part.stock.value, size=1.2, anchor="middle")
    else:
        canvas.text(x + 1.9, y - 0.9, part.ref, bold=True)
        canvas.text(x + 1.9, y + 0.9, part.stock.value, size=1.2)


def _resistor(canvas: Canvas, pose: Pose) -> Point:
    canvas.line(pose.path((1.2, -0.8), (4.8, -0.8), (4.8, 0.8), (1.2, 0.8), (1.2, -0.8)), BODY)
    return 1.2, 4.8


def _fuse(canvas: Canvas, pose: Pose) -> Point:
    _resistor(canvas, pose)
    canvas.line(pose.path((0.9, 1.5), (1.8, 1.5), (4.2, -1.4)))
    return 1.2, 4.8


def _capacitor(canvas: Canvas, pose: Pose) -> Point:
    for x in (2.7, 3.3):
        canvas.line(pose.path((x, -1.4), (x, 1.4)), Stroke(width=0.3))
    return 2.7, 3.3


def _electrolytic(canvas: Canvas, pose: Pose) -> Point:
    canvas.line(pose.path((2.4, -1.4), (2.8, -1.4), (2.8, 1.4), (2.4, 1.4), (2.4, -1.4)), BODY)
    canvas.line(pose.path((3.3, -1.4), (3.3, 1.4)), Stroke(width=0.35))
    canvas.line(pose.path((1.2, 1.5), (2.0, 1.5)))
    canvas.line(pose.path((1.6, 1.9), (1.6, 1.1)))
    return 2.4, 3.3


def _diode(canvas: Canvas, pose: Pose) -> Point:
    canvas.line(pose.path((2.0, -1.2), (4.0, 0), (2.0, 1.2), (2.0, -1.2)), SOLID)
    canvas.line(pose.path((4.0, -1.2), (4.0, 1.2)), Stroke(width=0.3))
    return 2.0, 4.0


def _zener(canvas: Canvas, pose: Pose) -> Point:
    _diode(canvas, pose)
    canvas.line(pose.path((4.5, -1.5), (4.0, -1.2), (4.0, 1.2), (3.5, 1.5)), Stroke(width=0.25))
    return 2.0, 4.0


def _led(canvas: Canvas, pose: Pose) -> Point:
    _diode(canvas, pose)
    for x in (2.6, 3.6):
        canvas.line(pose.path((x, 1.4), (x + 0.9, 2.4), (x + 0.85, 1.9), (x + 0.9, 2.4), (x + 0.4, 2.3)))
    return 2.0, 4.0


def _photodiode(canvas: Canvas, pose: Pose) -> Point:
    _diode(canvas, pose)
    for x in (2.6, 3.6):
        canvas.line(pose.path((x + 0.9, -2.4), (x, -1.4), (x + 0.1, -1.9), (x, -1.4), (x + 0.5, -1.5)))
    return 2.0, 4.0


def _sounder(canvas: Canvas, pose: Pose) -> Point:
    x, y = pose.at(3, 0)
    canvas.circle(x, y, 1.8, BODY)
    canvas.line(pose.path((1.2, 0), (2.4, 0), (2.4, -0.7), (3.6, -0.7), (3.6, 0.7), (2.4, 0.7), (2.4, 0)))
    return 1.2, 4.8


def _jumper(canvas: Canvas, pose: Pose) -> Point:
    canvas.line(pose.path((0.6, -1.0), (5.4, -1.0), (5.4, 1.0), (0.6, 1.0), (0.6, -1.0)), BODY)
    for dx in (1.8, 4.2):
        x, y = pose.at(dx, 0)
        canvas.circle(x, y, 0.5, SOLID)
    return 1.8, 4.2


_BODIES: dict[str, Callable[[Canvas, Pose], Point]] = {
    "resistor": _resistor,
    "fuse": _fuse,
    "capacitor": _capacitor,
    "electrolytic": _electrolytic,
    "diode": _diode,
    "zener": _zener,
    "led": _led,
    "photodiode": _photodiode,
    "sounder": _sounder,
    "connector-2": _jumper,
}


def draw_fet(canvas: Canvas, part: Part, pose: Pose) -> Pins:
    """Draw an N-channel FET: gate at the pose, drain up and source down on the right."""
    gate, drain, source = pose.at(0, 0), pose.at(4, -4), pose.at(4, 4)
    canvas.line(pose.path((0, 0), (2, 0)))
    canvas.line(pose.path((2, -1.8), (2, 1.8)), Stroke(width=0.3))
    for y in (-1.6, 0, 1.6):
        canvas.line(pose.path((2.6, y - 0.6), (2.6, y + 0.6)), Stroke(width=0.3))
    canvas.line(pose.path((4, -4), (4, -1.6), (2.6, -1.6)))
    canvas.line(pose.path((2.6, 1.6), (4, 1.6), (4, 4)))
    canvas.line(pose.path((2.7, 0), (4, 0), (4, 1.6)))
    canvas.line(pose.path((2.7, 0), (3.5, -0.5), (3.5, 0.5), (2.7, 0)), SOLID)
    _name_right(canvas, part, pose)
    return {"G": gate, "D": drain, "S": source}


def draw_npn(canvas: Canvas, part: Part, pose: Pose) -> Pins:
    """Draw an NPN transistor: base at the pose, collector up and emitter down on the right."""
    canvas.line(pose.path((0, 0), (2.2, 0)))
    canvas.line(pose.path((2.2, -1.6), (2.2, 1.6)), Stroke(width=0.35))
    canvas.line(pose.path((2.2, -0.7), (4, -2.2), (4, -4)))
    canvas.line(pose.path((2.2, 0.7), (4, 2.2), (4, 4)))
    canvas.line(pose.path((3.8, 2.1), (2.9, 1.9), (3.4, 1.2), (3.8, 2.1)), SOLID)
    _name_right(canvas, part, pose)
    return {"C": pose.at(4, -4), "B": pose.at(0, 0), "E": pose.at(4, 4)}


def draw_pnp(canvas: Canvas, part: Part, pose: Pose) -> Pins:
    """Draw a PNP transistor: base at the pose, emitter up and collector down on the right."""
    canvas.line(pose.path((0, 0), (2.2, 0)))
    canvas.line(pose.path((2.2, -1.6), (2.2, 1.6)), Stroke(width=0.35))
    canvas.line(pose.path((2.2, -0.7), (4, -2.2), (4, -4)))
    canvas.line(pose.path((2.2, 0.7), (4, 2.2), (4, 4)))
    canvas.line(pose.path((2.4, -0.8), (3.3, -1.0), (2.8, -1.7), (2.4, -0.8)), SOLID)
    _name_right(canvas, part, pose)
    return {"E": pose.at(4, -4), "B": pose.at(0, 0), "C": pose.at(4, 4)}


def _name_right(canvas: Canvas, part: Part, pose: Pose) -> None:
    x, y = pose.at(5, 0)
    canvas.text(x, y - 0.9, part.ref, bold=True)
    canvas.text(x, y + 0.9, part.stock.value, size=1.2)


def draw_connector(canvas: Canvas, part: Part, x: float, rows: dict[str, float]) -> Pins:
    """Draw a connector as a column of numbered contacts, wires entering from either side."""
    ys = rows.values()
    top, bottom = min(ys) - 1.6, max(ys) + 1.6
    canvas.rectangle(x - 1.3, top, 2.6, bottom - top)
    for name, y in rows.items():
        canvas.circle(x, y, 0.55, BODY)
        canvas.text(x, y - 1.1, part.pin(name).number, size=0.95, anchor="middle")
    canvas.text(x, top - 1.1, part.ref, anchor="middle", bold=True)
    return {name: (x, y) for name, y in rows.items()}


def draw_box(
    canvas: Canvas, part: Part, corner: Point, size: Point, pins: Pins, numbers: bool = True
) -> Pins:
    """Draw a box with named pins; `pins` gives each pin's place, two or three units off the box."""
    (x, y), (w, h) = corner, size
    canvas.rectangle(x, y, w, h, BODY)
    for name, (px, py) in pins.items():
        _box_pin(canvas, part, name, (px, py), (x, y, x + w, y + h), numbers)
    return dict(pins)


def _box_pin(
    canvas: Canvas, part: Part, name: str, at: Point, box: tuple[float, float, float, float], numbers: bool
) -> None:
    (px, py), (left, top, right, bottom) = at, box
    unused = part.pin(name).job.value == "unused"
    colour = "#8a8a8a" if unused else "#1a1a1a"
    label = name[:3] if name.startswith("GND") else name
    ex, ey = min(max(px, left), right), min(max(py, top), bottom)
    canvas.line([(px, py), (ex, ey)], Stroke(colour=colour))
    if ex in (left, right):
        inward, anchor = (0.5, "start") if ex == left else (-0.5, "end")
        canvas.text(ex + inward, py, label, size=1.2, anchor=anchor, colour=colour)
        if numbers:
            outward, away = (-0.4, "end") if ex == left else (0.4, "start")
            canvas.text(ex + outward, py - 0.8, part.pin(name).number, size=0.95, anchor=away, colour=colour)
    else:
        canvas.text(ex, ey + (1.0 if ey == top else -1.0), label, size=1.2, anchor="middle")
        if numbers:
            canvas.text(ex + 0.3, ey + (-0.8 if ey == top else 0.8), part.pin(name).number, size=0.95)
    if unused:
        for sign in (1, -1):
            canvas.line([(px - 0.5, py - 0.5 * sign), (px + 0.5, py + 0.5 * sign)], Stroke(colour=colour))
