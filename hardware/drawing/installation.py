"""Pictures for the installation: relay modules and their mains side, the pedals' cables, and the labels."""

from __future__ import annotations

from hardware.drawing.canvas import ACCENT, FAINT, INK, Canvas, Point, Stroke

LINE, NEUTRAL, EARTH, LOW = "#7a4a1f", "#1f5fa8", "#2f7d32", "#8a2fa0"
BOX = Stroke(width=0.3, fill="#ffffff")
CERTIFIED = Stroke(colour=ACCENT, width=0.4, dash=True)


def mains() -> Canvas:
    """Draw how the two certified modules are wired: what an electrician is shown, not a licence to do it."""
    title = "Relay modules: low voltage on the left, mains on the right"
    c = Canvas(150, 112, scale=8, title=title)
    c.text(4, 4, title, size=2.4, colour=ACCENT, bold=True)
    _legend(c)
    _origin(c)
    _lamp_module(c, 30)
    _white_module(c, 72)
    note = "Mains only inside certified, closed modules, by local code; mostly a licensed electrician's work."
    c.text(4, 109, note, size=1.6, colour=ACCENT)
    return c


def _legend(c: Canvas) -> None:
    colours = ((LINE, "line"), (NEUTRAL, "neutral"), (EARTH, "earth"), (LOW, "5 V, SELV"))
    for k, (colour, words) in enumerate(colours):
        c.line([(84 + 16 * k, 9), (88 + 16 * k, 9)], Stroke(colour=colour, width=0.6))
        c.text(89 + 16 * k, 9, words, size=1.5)


def _origin(c: Canvas) -> None:
    """Draw the residual-current device and the rails behind it."""
    _box(c, (62, 13), (24, 8), "RCD, 30 mA")
    for y, colour in ((15, LINE), (19, NEUTRAL)):
        _mains_wire(c, (56, y), (62, y), colour=colour)
        _mains_wire(c, (86, y), (RAIL if colour == LINE else 144, y), colour=colour)
    c.text(55, 17, "supply", size=1.6, anchor="end")
    _mains_wire(c, (RAIL, 15), (RAIL, 81))
    _mains_wire(c, (144, 19), (144, 91), colour=NEUTRAL)


RAIL = 102.0


def _lamp_module(c: Canvas, y: float) -> None:
    _module(c, y, "K1  lamp relay module", "J2.1", "J2.2", "+5 V", "switched low")
    _branch(c, y, "enlarger lamp", "by its own plug or socket")
    c.circle(RAIL, y + 9, 0.7, Stroke(width=0, fill=LINE))
    c.circle(144, y + 19, 0.7, Stroke(width=0, fill=NEUTRAL))


def _white_module(c: Canvas, y: float) -> None:
    """The switch by the door bridges the contact: light for a splashed eye, whatever the controller says."""
    _module(c, y, "K2  white-light relay module", "J3.1", "J3.2", "+5 V", "switched low")
    _branch(c, y, "white lamp", "used for nothing else")
    for dy in (9, 15):
        c.circle(83, y + dy, 0.7, Stroke(width=0, fill=LINE))
    _mains_wire(c, (83, y + 9), (83, y + 10.2))
    _mains_wire(c, (83, y + 13.8), (83, y + 15))
    c.line([(83, y + 10.2), (80.8, y + 13.4)], Stroke(colour=INK, width=0.5))
    c.text(85, y + 12, "switch by the door:", size=1.5)
    c.text(101, y + 12, "always works", size=1.5, bold=True)


def _branch(c: Canvas, y: float, load: str, note: str) -> None:
    """Draw a lamp's own fuse, the contact in its line conductor, and the lamp."""
    _mains_wire(c, (RAIL, y + 9), (78, y + 9))
    c.rectangle(91, y + 8, 5, 2, BOX)
    _mains_wire(c, (91, y + 9), (96, y + 9))
    c.text(93.5, y + 6.4, "fuse for this lamp", size=1.4, anchor="middle")
    _contact(c, y)
    _mains_wire(c, (78, y + 15), (114, y + 15))
    _mains_wire(c, (144, y + 19), (136, y + 19), colour=NEUTRAL)
    _box(c, (114, y + 12), (22, 12), load)
    c.text(125, y + 21, note, size=1.4, anchor="middle", colour=FAINT)
    _mains_wire(c, (120, y + 24), (120, y + 26.4), colour=EARTH)
    c.text(120, y + 28, "earth, if its case is metal", size=1.4, anchor="middle")


def _mains_wire(c: Canvas, a: Point, b: Point, colour: str = LINE) -> None:
    c.line([a, b], Stroke(colour=colour, width=0.5))


def _module(c: Canvas, y: float, title: str, plus: str, low: str, plus_words: str, low_words: str) -> None:
    c.rectangle(40, y, 38, 24, CERTIFIED)
    c.text(59, y - 1.6, title, size=1.8, anchor="middle", bold=True)
    c.text(59, y + 22.4, "certified, closed", size=1.5, anchor="middle", colour=ACCENT)
    _box(c, (44, y + 7), (7, 10), "")
    c.line([(44, y + 15.5), (51, y + 8.5)], Stroke(width=0.3))
    for dy, pin, words, end in ((9, plus, plus_words, "A1"), (15, low, low_words, "A2")):
        c.line([(22, y + dy), (44, y + dy)], Stroke(colour=LOW, width=0.5))
        c.text(21, y + dy, f"{pin}  {words}", size=1.6, anchor="end")
        c.text(42, y + dy - 1.3, end, size=1.4, anchor="end")
    c.line([(51, y + 12), (62, y + 12)], Stroke(colour=FAINT, width=0.25, dash=True))


def _contact(c: Canvas, y: float) -> None:
    """A make contact, drawn open: without power it is dark."""
    c.line([(78, y + 9), (66, y + 9)], Stroke(colour=LINE, width=0.5))
    c.line([(78, y + 15), (66, y + 15)], Stroke(colour=LINE, width=0.5))
    c.line([(66, y + 9), (62.5, y + 14)], Stroke(colour=INK, width=0.5))
    c.circle(66, y + 9, 0.6, BOX)
    c.circle(66, y + 15, 0.6, BOX)
    c.text(76, y + 7.6, "COM", size=1.4, anchor="end")
    c.text(76, y + 16.8, "NO", size=1.4, anchor="end")


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
    ("LAMP SENSE", "photodiode"),
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
