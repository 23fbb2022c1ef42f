"""Relay modules and their mains side, as an electrician is shown them: every crossing hops."""

from __future__ import annotations

from dataclasses import dataclass

from hardware.drawing.canvas import ACCENT, FAINT, INK, Canvas, Point, Stroke

COLOURS = {"L": "#7a4a1f", "N": "#1f5fa8", "PE": "#2f7d32", "5 V": "#8a2fa0"}
BOX = Stroke(width=0.3, fill="#ffffff")
CERTIFIED = Stroke(colour=ACCENT, width=0.4, dash=True)
OPTION = Stroke(colour=FAINT, width=0.3, dash=True)
HOP = 1.2
RAILS = {"PE": 22.0, "N": 27.0, "L": 32.0}
# By region, flexible cords and fixed wiring differ: the letters at the terminals hold everywhere.
REGIONS = (
    ("", "L, line", "N, neutral", "PE, earth"),
    ("Europe, UK, Australia, China (today)", "brown", "blue", "green and yellow"),
    ("USA, Canada", "black (red)", "white (grey)", "green or bare"),
    ("older fixed wiring, anywhere", "measure", "measure", "measure"),
)


@dataclass(frozen=True)
class Wire:
    """A conductor and its corners."""

    name: str
    points: tuple[Point, ...]


def wires() -> list[Wire]:
    """Return every conductor of the mains side."""
    right = 186.0
    rails = [Wire(name, ((56.0, y), (right, y))) for name, y in RAILS.items()]
    return rails + [*_lamp_wires(78.0, 124.0), *_lamp_wires(150.0, 124.0), *_door_switch(150.0)]


def _lamp_wires(x: float, lamp_y: float) -> list[Wire]:
    """Line down through fuse and contacts, neutral and earth up again on the right."""
    return [
        Wire("L", ((x, RAILS["L"]), (x, 58.0))),
        Wire("L", ((x, 66.0), (x, 84.0))),
        Wire("L", ((x, 92.0), (x, lamp_y))),
        Wire("N", ((x + 12, lamp_y), (x + 12, RAILS["N"]))),
        Wire("PE", ((x + 18, lamp_y), (x + 18, RAILS["PE"]))),
    ]


def _door_switch(x: float) -> list[Wire]:
    return [
        Wire("L", ((x, 51.0), (x + 7, 51.0), (x + 7, 72.0))),
        Wire("L", ((x + 7, 79.0), (x + 7, 114.0), (x, 114.0))),
    ]


def crossings() -> list[tuple[Point, str, str]]:
    """Return where an upright conductor runs over a level one of another kind: there it hops."""
    found = []
    for up in wires():
        for level in wires():
            for (x1, y1), (x2, y2) in zip(up.points, up.points[1:], strict=False):
                for (x3, y3), (x4, y4) in zip(level.points, level.points[1:], strict=False):
                    crosses = x1 == x2 and y3 == y4 and min(x3, x4) < x1 < max(x3, x4)
                    if crosses and min(y1, y2) < y3 < max(y1, y2):
                        found.append(((x1, y3), up.name, level.name))
    return found


def mains() -> Canvas:
    """Draw what an electrician is shown, not a licence to do it."""
    title = "Relay modules: 5 V on the left of each, mains within and behind"
    c = Canvas(200, 176, scale=7, title=title)
    c.text(4, 4, title, size=2.4, colour=ACCENT, bold=True)
    note = "Mains only inside certified, closed modules, by local code; mostly a licensed electrician's work."
    c.text(4, 8, note, 1.6)
    _origin(c)
    for wire in wires():
        _draw(c, wire)
    for (x, y), name, _ in crossings():
        _hop(c, x, y, name)
    _dots(c)
    _column(c, 78.0, ("J2.1", "J2.2"), "K1  lamp", "enlarger lamp", "K1b  option, in series")
    _column(c, 150.0, ("J3.1", "J3.2"), "K2  white light", "white lamp, used for nothing else", "")
    _door(c, 150.0)
    _emergency(c)
    _table(c)
    return c


def _origin(c: Canvas) -> None:
    c.rectangle(24, 24, 32, 11, BOX)
    c.text(40, 29.5, "RCD, 30 mA", size=1.7, anchor="middle")
    for name, y in RAILS.items():
        end = 56 if name == "PE" else 24
        c.line([(14, y), (end, y)], Stroke(colour=COLOURS[name], width=0.6))
        c.text(12.6, y, name, size=1.7, anchor="end", bold=True, colour=COLOURS[name])
    c.text(40, 20, "earth passes beside the RCD", size=1.3, anchor="middle", colour=FAINT)


def _draw(c: Canvas, wire: Wire) -> None:
    c.line(list(wire.points), Stroke(colour=COLOURS[wire.name], width=0.6), kind="mains", conductor=wire.name)
    x, y = wire.points[0]
    if wire.name != "L" or len(wire.points) > 2 or y == RAILS["L"]:
        return
    c.text(x - 1, y + 2.4, "L", size=1.3, anchor="end", colour=COLOURS["L"])


def _hop(c: Canvas, x: float, y: float, name: str) -> None:
    """An arc over the level wire: what hops does not touch."""
    c.line([(x, y - HOP), (x, y + HOP)], Stroke(colour="#fdfcfa", width=1.6))
    arc = [(x, y - HOP), (x + 0.9, y - 0.8), (x + HOP, y), (x + 0.9, y + 0.8), (x, y + HOP)]
    c.line(arc, Stroke(colour=COLOURS[name], width=0.6), kind="hop", at=f"{x:g},{y:g}")


def _dots(c: Canvas) -> None:
    for x in (78.0, 150.0):
        for name, dx in (("L", 0), ("N", 12), ("PE", 18)):
            c.circle(x + dx, RAILS[name], 0.9, Stroke(width=0, fill=COLOURS[name]))
    for y in (51.0, 114.0):
        c.circle(150, y, 0.9, Stroke(width=0, fill=COLOURS["L"]))


def _column(c: Canvas, x: float, low: tuple[str, str], title: str, lamp: str, option: str) -> None:
    c.rectangle(x - 1.3, 38, 2.6, 7, BOX)
    c.line([(x, 37), (x, 46)], Stroke(colour=COLOURS["L"], width=0.6))
    c.text(x - 2.4, 41.5, "own fuse", size=1.4, anchor="end")
    _module(c, x, 54, low, title, CERTIFIED)
    if option:
        _module(c, x, 80, low, option, OPTION)
        c.text(x - 22, 98.4, "left out: NO of K1 goes straight on", size=1.3, colour=FAINT)
    else:
        c.line([(x, 84), (x, 92)], Stroke(colour=COLOURS["L"], width=0.6))
    c.rectangle(x - 4, 124, 26, 10, BOX)
    c.text(x + 9, 129, lamp, size=1.35, anchor="middle")
    for name, dx in (("L", 0), ("N", 12), ("PE", 18)):
        c.text(x + dx + 0.9, 121.6, name, size=1.4, bold=True, colour=COLOURS[name])
    note = "PE to every metal case; square in a square: none"
    c.text(x + 9, 136.6, note, size=1.2, anchor="middle", colour=FAINT)


def _module(c: Canvas, x: float, y: float, low: tuple[str, str], title: str, frame: Stroke) -> None:
    c.rectangle(x - 22, y, 26, 16, frame)
    c.text(x - 22, y - 1.4, title, size=1.5, bold=frame is CERTIFIED)
    c.rectangle(x - 18, y + 4, 5, 8, BOX)
    for name, end, dy in zip(low, ("A1 +", "A2"), (5.5, 10.5), strict=True):
        c.line([(x - 30, y + dy), (x - 18, y + dy)], Stroke(colour=COLOURS["5 V"], width=0.5))
        c.text(x - 30.6, y + dy, name, size=1.5, anchor="end", colour=COLOURS["5 V"])
        c.text(x - 18.4, y + dy - 1.1, end, size=1.1, anchor="end")
    c.line([(x - 13, y + 8), (x - 1.8, y + 8)], Stroke(colour=FAINT, width=0.25, dash=True))
    c.line([(x, y + 4), (x, y + 4.6)], Stroke(colour=COLOURS["L"], width=0.6))
    c.line([(x, y + 12), (x - 3, y + 5.4)], Stroke(colour=INK, width=0.5))
    for dy in (4, 12):
        c.circle(x, y + dy, 0.6, BOX)
    c.text(x + 3.4, y + 2.6, "COM", size=1.1, anchor="end")
    c.text(x + 3.4, y + 14, "NO", size=1.1, anchor="end")


def _door(c: Canvas, x: float) -> None:
    c.line([(x + 7, 79), (x + 4.6, 72.6)], Stroke(colour=INK, width=0.5))
    for y in (72, 79):
        c.circle(x + 7, y, 0.6, BOX)
    c.text(x + 20, 74, "switch by the door:", size=1.4)
    c.text(x + 20, 76.6, "always works", size=1.4, bold=True)


def _emergency(c: Canvas) -> None:
    c.rectangle(4, 104, 38, 22, Stroke(colour=COLOURS["PE"], width=0.5, fill="#ffffff"))
    for k, (words, bold) in enumerate(
        (("Emergency light", True), ("with its own battery, or its own", False), ("circuit and fuse:", False),
         ("no relay and no shared fuse", True), ("ever stands before it", False))
    ):  # fmt: skip
        c.text(23, 107.6 + 3.6 * k, words, size=1.4, anchor="middle", bold=bold)


def _table(c: Canvas) -> None:
    xs = (4, 70, 106, 142)
    for row, cells in enumerate(REGIONS):
        for x, words, name in zip(xs, cells, ("", "L", "N", "PE"), strict=True):
            colour = COLOURS.get(name, INK) if row == 0 else INK
            c.text(x, 146 + 4.4 * row, words, size=1.6, bold=row == 0, colour=colour)
    for k, words in enumerate(
        (
            "Colours of one country mislead in another. The letters hold; what has none is measured.",
            "A filled dot joins, an arc hops over. Drawn without power: every contact is open.",
        )
    ):
        c.text(4, 168 + 4 * k, words, 1.6)
