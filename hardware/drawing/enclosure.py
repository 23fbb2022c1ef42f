"""Dimensioned drawings of box and pedal, from the same dimensions as the printable files."""

from __future__ import annotations

from hardware.drawing.canvas import ACCENT, FAINT, Canvas, Point, Stroke
from hardware.printing import read_dimensions

THIN = Stroke(width=0.35)
AXIS = Stroke(colour=FAINT, width=0.25, dash=True)
ARROW = Stroke(colour=FAINT, width=0.25)


def box() -> Canvas:
    """Draw the lid from the front and the lower wall from below [mm]."""
    d = read_dimensions()
    outer_w, outer_d = d["inner_w"] + 2 * d["wall"], d["inner_d"] + 2 * d["wall"]
    height = d["inner_h"] + d["wall"]
    c = Canvas(outer_w + 70, outer_d + height + 70, scale=4, title="Box: dimensions in millimetres")
    left, top = 35.0, 22.0
    middle = (left + outer_w / 2, top + outer_d / 2)
    c.text(left, 7, "Box: dimensions in millimetres", size=5, colour=ACCENT, bold=True)
    c.text(left, 14, "Lid from the front", size=4)
    c.rectangle(left, top, outer_w, outer_d, THIN)
    _window(c, middle, d)
    _sounder(c, middle, d)
    _screws(c, middle, d)
    _level(c, left, left + outer_w, top + outer_d + 7, f"{outer_w:g}")
    _upright(c, left - 8, top, top + outer_d, f"{outer_d:g}")
    below = top + outer_d + 30
    c.text(left, below - 8, "Lower wall, from outside: lid edge up", size=4)
    c.rectangle(left, below, outer_w, height, THIN)
    _exits(c, (middle[0], below + height), d)
    _upright(c, left - 8, below, below + height, f"{height:g}")
    return c


def _window(c: Canvas, middle: Point, d: dict[str, float]) -> None:
    x, y = middle[0] - d["window_w"] / 2, middle[1] - d["display_y"] - d["window_d"] / 2
    c.rectangle(x, y, d["window_w"], d["window_d"], THIN)
    c.text(middle[0], y + 9, "display behind red film", size=4, anchor="middle", colour=FAINT)
    _level(c, x, x + d["window_w"], y + d["window_d"] - 6, f"{d['window_w']:g}")
    _upright(c, x + 8, y, y + d["window_d"], f"{d['window_d']:g}")
    _upright(c, middle[0] + 50, y + d["window_d"] / 2, middle[1], f"{d['display_y']:g}")
    c.line([(middle[0] - 70, middle[1]), (middle[0] + 70, middle[1])], AXIS)


def _sounder(c: Canvas, middle: Point, d: dict[str, float]) -> None:
    x, y = middle[0] + d["sounder_x"], middle[1] - d["sounder_y"]
    c.circle(x, y, d["sounder_ring_r"], AXIS)
    c.circle(x, y, d["sounder_hole_d"] / 2, THIN)
    words = (
        f"sounder: {d['sounder_holes']:g} holes Ø {d['sounder_hole_d']:g} in Ø {2 * d['sounder_ring_r']:g}"
    )
    c.text(x + 10, y, words, size=3.5)


def _screws(c: Canvas, middle: Point, d: dict[str, float]) -> None:
    dx, dy = d["inner_w"] - d["lid_post_d"] + 1, d["inner_d"] - d["lid_post_d"] + 1
    for sx in (-1, 1):
        for sy in (-1, 1):
            c.circle(middle[0] + sx * dx / 2, middle[1] + sy * dy / 2, d["lid_screw_d"] / 2, THIN)
    words = f"four holes Ø {d['lid_screw_d']:g}, {dx:g} × {dy:g} apart"
    c.text(middle[0] - 62, middle[1] + dy / 2 - 6, words, size=3.5)


def _exits(c: Canvas, foot: Point, d: dict[str, float]) -> None:
    names = ("lamp", "white", "pedal 1", "pedal 2", "sense", "supply")
    sizes = ("gland_d", "gland_d", "socket_d", "socket_d", "small_d", "small_d")
    y = foot[1] - d["wall"] - d["exit_z"]
    for k, (name, size) in enumerate(zip(names, sizes, strict=True)):
        x = foot[0] + (k - 2.5) * d["exit_pitch"]
        c.circle(x, y, d[size] / 2, THIN)
        c.text(x, y - 12, name, size=3.5, anchor="middle")
        c.text(x, y + 11, f"Ø {d[size]:g}", size=3.5, anchor="middle")
    x = foot[0] - 2.5 * d["exit_pitch"]
    _level(c, x, x + d["exit_pitch"], foot[1] + 6, f"{d['exit_pitch']:g}")
    _upright(c, foot[0] + 82, y, foot[1], f"{d['wall'] + d['exit_z']:g}")


def pedal() -> Canvas:
    """Draw the pedal's base from above and from the side [mm]."""
    d = read_dimensions()
    w, length, height = d["pedal_w"], d["pedal_l"], d["base_h"]
    c = Canvas(length + 70, w + height + 92, scale=4, title="Pedal: dimensions in millimetres")
    left, top = 35.0, 22.0
    c.text(left, 7, "Pedal base: dimensions in millimetres", size=5, colour=ACCENT, bold=True)
    c.text(left, 14, "From above; toe on the left, hinge on the right", size=4)
    c.rectangle(left, top, length, w, THIN)
    button = left + d["button_from_front"]
    c.circle(button, top + w / 2, d["button_hole_d"] / 2, THIN)
    c.text(button, top + w / 2 + 13, f"button Ø {d['button_hole_d']:g}", size=3.5, anchor="middle")
    c.circle(button + 32, top + w / 2, d["spring_d"] / 2, THIN)
    c.text(button + 32, top + w / 2 - 9, f"spring Ø {d['spring_d']:g}", size=3.5, anchor="middle")
    for side in (-1, 1):
        c.circle(button - 18, top + w / 2 + side * 30, 7, THIN)
    c.text(button - 10, top + w / 2 - 30, f"stops, {d['stop_h']:g} high", size=3.5)
    c.line([(left + length - 10, top - 4), (left + length - 10, top + w + 4)], AXIS)
    c.text(left + length - 13, top + 8, f"steel rod Ø {d['rod_d'] - 0.3:g}", size=3.5, anchor="end")
    _level(c, left, button, top + w + 7, f"{d['button_from_front']:g}")
    _level(c, left, left + length, top + w + 15, f"{length:g}")
    _upright(c, left - 8, top, top + w, f"{w:g}")
    _pedal_side(c, left, top + w + 52, d)
    return c


def _pedal_side(c: Canvas, left: float, y: float, d: dict[str, float]) -> None:
    length, height = d["pedal_l"], d["base_h"]
    hinge = (left + length - 10, y - d["treadle_rise"] + 2)
    c.text(left, y - 28, "From the side, at rest", size=4)
    c.rectangle(left, y, length, height, THIN)
    c.rectangle(left + d["button_from_front"] - 25, y - d["stop_h"], 14, d["stop_h"], THIN)
    toe, thick = (hinge[0] - 119, hinge[1] - 6.2), d["treadle_t"]
    c.line([hinge, toe, (toe[0], toe[1] - thick), (hinge[0], hinge[1] - thick), hinge], THIN)
    c.text((hinge[0] + toe[0]) / 2, y - 14.5, "treadle", size=3.5, anchor="middle")
    c.circle(*hinge, d["rod_d"] / 2, THIN)
    _upright(c, left - 8, y, y + height, f"{height:g}")
    _upright(c, left + length + 8, hinge[1], y, f"{d['treadle_rise'] - 2:g}")
    c.text(left, y + height + 8, "hollow from below; a rubber foot in each corner", size=3.5, colour=FAINT)


def _level(c: Canvas, x1: float, x2: float, y: float, words: str) -> None:
    c.line([(x1, y), (x2, y)], ARROW)
    for x, inward in ((x1, 2), (x2, -2)):
        c.line([(x + inward, y - 0.9), (x, y), (x + inward, y + 0.9)], ARROW)
    c.text((x1 + x2) / 2, y - 2.6, words, size=3.5, anchor="middle")


def _upright(c: Canvas, x: float, y1: float, y2: float, words: str) -> None:
    c.line([(x, y1), (x, y2)], ARROW)
    for y, inward in ((y1, 2), (y2, -2)):
        c.line([(x - 0.9, y + inward), (x, y), (x + 0.9, y + inward)], ARROW)
    c.text(x - 2.6, (y1 + y2) / 2, words, size=3.5, anchor="middle", turned=True)
