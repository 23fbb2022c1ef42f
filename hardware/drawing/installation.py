"""Pictures for the installation: the pedals' cables, and the labels."""

from __future__ import annotations

from hardware.drawing.canvas import ACCENT, FAINT, Canvas, Point, Stroke

LOW = "#8a2fa0"
BOX = Stroke(width=0.3, fill="#ffffff")


def _box(c: Canvas, corner: Point, size: Point, words: str) -> None:
    c.rectangle(*corner, *size, BOX)
    c.text(corner[0] + size[0] / 2, corner[1] + size[1] / 2, words, size=1.7, anchor="middle")


PINS = ("1 common", "2 make", "3 rest")


def pedals() -> Canvas:
    """Draw the cables of one pedal, and of two."""
    c = Canvas(112, 66, scale=9, title="Pedals: one, or two")
    c.text(4, 4, "Pedals: one, or two", size=2.4, colour=ACCENT, bold=True)
    for x, title, second in ((4, "One pedal: cap on JP1", False), (58, "Two pedals: cap off", True)):
        c.text(x, 9, title, size=1.9, bold=True)
        _socket(c, x, 16, "J5")
        _switch(c, x + 24, 14, "pedal 1")
        _socket(c, x, 42, "J7")
        _box(c, (x - 1, 31.5), (12, 4), "JP1 cap on" if not second else "JP1 no cap")
        if second:
            _switch(c, x + 24, 40, "pedal 2")
        else:
            c.text(x + 14, 46, "nothing", size=1.6, colour=FAINT)
    note = (
        "Each pedal is wired alike, wire for wire. A forgotten cap or a broken wire reads as pressed: dark."
    )
    c.text(4, 63, note, size=1.5, colour=FAINT)
    return c


def _socket(c: Canvas, x: float, y: float, name: str) -> None:
    c.rectangle(x, y - 2, 10, 14, BOX)
    c.text(x + 5, y - 3.4, name, size=1.7, anchor="middle", bold=True)
    for k, words in enumerate(PINS):
        c.text(x + 9, y + 5 * k, words, size=1.4, anchor="end")


def _switch(c: Canvas, x: float, y: float, name: str) -> None:
    """Common goes to the moving blade; it lies on rest."""
    c.rectangle(x, y, 20, 14, BOX)
    c.text(x + 10, y - 1.4, name, size=1.7, anchor="middle", bold=True)
    for k, ends in enumerate(PINS):
        c.line([(x - 14, y + 2 + 5 * k), (x, y + 2 + 5 * k)], Stroke(colour=LOW, width=0.4))
        c.text(x + 1, y + 2 + 5 * k, ends[2:], size=1.3)
    c.line([(x + 7, y + 2), (x + 17, y + 2), (x + 17, y + 8), (x + 13, y + 11)], Stroke(width=0.35))
    for dy in (7, 12):
        c.line([(x + 7, y + dy), (x + 12, y + dy)], Stroke(width=0.35))
        c.circle(x + 12.5, y + dy, 0.5, BOX)


LABELS: tuple[tuple[str, str], ...] = (
    ("5 V DC, 2 A", "this supply only"),
    ("LAMP", "5 V to its relay module"),
    ("WHITE LIGHT", "5 V to its relay module"),
    ("PEDAL 1", "low voltage"),
    ("PEDAL 2", "JP1 cap off"),
    ("LIGHT SENSOR", "photodiode"),
    ("COMPUTER", "dry work only; plug in wet work"),
    ("NO MAINS IN THIS BOX", "open only with the supply unplugged"),
    ("LAMP RELAY", "switches by itself: unplug the lamp before touching it"),
    ("WHITE LIGHT RELAY", "the switch by the door always works"),
)


def labels() -> Canvas:
    """Draw the labels, to be printed at full size; a unit is a millimetre."""
    c = Canvas(150, 8 + 16 * 5, scale=3.7795, title="Labels, print at 100 %")
    for k, (head, line) in enumerate(LABELS):
        x, y = 4 + 72 * (k % 2), 4 + 16 * (k // 2)
        c.rectangle(x, y, 70, 14, Stroke(width=0.4, fill="#ffffff"))
        c.text(x + 35, y + 5, head, size=5, anchor="middle", bold=True)
        c.text(x + 35, y + 10.8, line, size=2.4, anchor="middle")
    return c
