"""Where the light sensor sits: in a condenser head, in a diffuser head, at a bare lamp for pre-flashing."""

from __future__ import annotations

from hardware.drawing.canvas import ACCENT, FAINT, INK, Canvas, Stroke

BEAM = Stroke(colour="#c9a94a", width=0.3, dash=True)
BODY = Stroke(width=0.35, fill="#ffffff")
GLASS = Stroke(colour="#1f5fa8", width=0.3, fill="#e8f1fa")
OPAL = Stroke(width=0.3, fill="#efefef")
CABLE = Stroke(colour="#8a2fa0", width=0.5)


def light_sensor() -> Canvas:
    """Draw the three places; the sensor sees the lamp's light, never the paper's or the safelight's."""
    c = Canvas(186, 92, scale=8, title="Where the light sensor sits")
    c.text(4, 4, "Where the light sensor sits", size=2.4, colour=ACCENT, bold=True)
    for x, title, draw in (
        (6, "Condenser head", _condenser),
        (68, "Diffuser head", _diffuser),
        (130, "Bare lamp, for pre-flashing", _bare),
    ):
        c.text(x, 10, title, size=1.9, bold=True)
        draw(c, x)
    for k, words in enumerate(
        (
            "After the head's filters, before lens and stop. Below 60 °C: at the wall, not at the bulb.",
            "A tube of black card, 10 mm, keeps it from seeing the room: neither red light nor an open door.",
        )
    ):
        c.text(4, 84 + 3.2 * k, words, size=1.5, colour=FAINT)
    return c


def _eye(c: Canvas, x: float, y: float, words: str) -> None:
    """The photodiode in its tube, looking to the left, with its cable to the right."""
    c.rectangle(x, y - 1.3, 5, 2.6, Stroke(width=0.3, fill="#555555"))
    c.rectangle(x + 4, y - 0.9, 2, 1.8, Stroke(colour=ACCENT, width=0.3, fill="#f4d4d1"))
    c.line([(x + 6, y), (x + 13, y)], CABLE)
    c.text(x + 6.5, y - 2.6, "to J8", size=1.4)
    c.text(x + 6.5, y + 2.4, words, size=1.3, colour=FAINT)


def _bulb(c: Canvas, x: float, y: float) -> None:
    c.circle(x, y, 4.2, OPAL)
    c.rectangle(x - 1.6, y - 7, 3.2, 3, Stroke(width=0.3, fill="#d9d9d9"))


def _lens(c: Canvas, x: float, y: float) -> None:
    c.rectangle(x - 5, y, 10, 4, BODY)
    c.text(x, y + 2, "lens, stop", size=1.2, anchor="middle")


def _condenser(c: Canvas, x: float) -> None:
    c.rectangle(x, 14, 32, 26, BODY)
    _bulb(c, x + 16, 25)
    c.text(x + 16, 25, "opal", size=1.2, anchor="middle", colour=INK)
    for y in (44, 49):
        c.rectangle(x + 3, y - 2, 26, 4, GLASS)
    c.text(x + 16, 44, "condensers", size=1.2, anchor="middle")
    c.line([(x + 12, 29), (x + 4, 42)], BEAM)
    c.line([(x + 20, 29), (x + 28, 42)], BEAM)
    c.line([(x + 5, 51), (x + 13, 66)], BEAM)
    c.line([(x + 27, 51), (x + 19, 66)], BEAM)
    _lens(c, x + 16, 66)
    _eye(c, x + 30, 36, "sees the lit wall")
    c.text(x, 76, "in the lower wall of the lamp house, looking at", size=1.35)
    c.text(x, 78.4, "its white inside; not at the filament, not in the cone", size=1.35)


def _diffuser(c: Canvas, x: float) -> None:
    c.rectangle(x, 14, 32, 34, BODY)
    _bulb(c, x + 7, 24)
    c.text(x + 20, 20, "mixing box, white", size=1.2, anchor="middle", colour=FAINT)
    c.rectangle(x + 3, 36, 26, 2, OPAL)
    c.text(x + 16, 34.4, "diffuser", size=1.2, anchor="middle")
    c.line([(x + 5, 39), (x + 13, 60)], BEAM)
    c.line([(x + 27, 39), (x + 19, 60)], BEAM)
    _lens(c, x + 16, 60)
    _eye(c, x + 30, 42.5, "sees the diffuser from below, aslant")
    c.text(x, 76, "behind the diffuser: after filters and mixing,", size=1.35)
    c.text(x, 78.4, "before the negative's place, beside the light's way", size=1.35)


def _bare(c: Canvas, x: float) -> None:
    c.rectangle(x, 14, 26, 24, BODY)
    _bulb(c, x + 13, 24)
    c.rectangle(x + 4, 37, 18, 2, OPAL)
    c.text(x + 13, 35.2, "opal", size=1.2, anchor="middle")
    c.line([(x + 5, 40), (x - 2, 66)], BEAM)
    c.line([(x + 21, 40), (x + 28, 66)], BEAM)
    c.line([(x - 4, 67), (x + 30, 67)], Stroke(width=0.5))
    c.text(x + 13, 69.4, "sheets", size=1.3, anchor="middle")
    _eye(c, x + 24, 31, "sees the box's inside")
    c.text(x, 76, "in the wall of the lamp's box; one sensor for", size=1.35)
    c.text(x, 78.4, "each lamp, plugged at the one connector", size=1.35)
