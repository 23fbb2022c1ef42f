"""Writes docs/screens.svg and docs/screens.md: what the display says in each state.

The pictures come from the firmware itself: its screens, its letters, its display driver, whose bytes are
caught on their way to the chip. `python docs/make_screens.py`.
"""

import sys
from pathlib import Path

DOCS = Path(__file__).parent
sys.path.insert(0, str(DOCS.parent / "firmware"))

from controller import display, screens  # noqa: E402
from footlight import meanings  # noqa: E402
from footlight_core import program  # noqa: E402
from footlight_core import states as st  # noqa: E402
from footlight_core.recovery import Recovery  # noqa: E402
from footlight_core.sequencer import Sequencer  # noqa: E402

PICTURE = DOCS / "screens.svg"
PAGE = DOCS / "screens.md"
SHA = "0" * 64
# An invented sequence that passes through every state.
RAW = {
    "v": 1,
    "title": "PRINT",
    "name": "an invented print",
    "lamps": [{"name": "ENLARG", "cap_ms": 60_000, "window_ms": 300_000}],
    "steps": [
        {
            "kind": "bath",
            "name": "first developer",
            "show": "DEV 1",
            "place": "1",
            "tongs": "A",
            "time_ms": 90_000,
            "lift_ms": 10_000,
        },
        {
            "kind": "judge",
            "name": "bleach",
            "show": "BLEACH",
            "place": "3",
            "tongs": "B",
            "least_ms": 30_000,
            "most_ms": 120_000,
        },
        {
            "kind": "light",
            "name": "second exposure",
            "show": "LIGHT",
            "time_ms": 8000,
            "settle_ms": 6000,
            "lens": "80MM",
            "stop": "F/11",
            "height_mm": 800,
        },
        {"kind": "pause", "name": "look", "show": "LOOK"},
        {"kind": "hand", "name": "rinse", "show": "RINSE", "time_ms": 20_000, "cues": [[9000, "DUMP"]]},
        {
            "kind": "bath",
            "name": "fixer",
            "show": "FIX",
            "place": "5",
            "tongs": "C",
            "time_ms": 60_000,
            "white": 1,
        },
    ],
}
HEAD = """# What the display says

Made by `docs/make_screens.py` from the firmware's own screens, letters and display driver; a test holds
page and picture to it. Thirty-two columns by eight rows, red; figures of a running time fill the display,
so that they can be read at two metres. What stands in turn is shown for 1.2 s a page.

![every screen](screens.svg)

| state | what is shown |
|---|---|
"""


class Shelf:
    """One sequence."""

    def entries(self):
        """Its title."""
        return ((1, SHA, "PRINT"),)

    def load(self, slot, sha):
        """The program."""
        return program.check(RAW)


class Catcher:
    """Stands where the display's chip would, and keeps the rows that it was sent."""

    def __init__(self):
        self.rows = [bytes(4)] * 8

    def write(self, words):
        """One latch: a register and a value for each module, the farthest first."""
        if 1 <= words[0] <= 8:
            self.rows[words[0] - 1] = bytes(words[7 - 2 * module] for module in range(4))


def dots(text: str, big: bool) -> list[tuple[int, int]]:
    """(x, y) of every lit LED."""
    catcher = Catcher()
    display.Display(catcher, lambda level: None).show(text, big, 1)
    return [(x, y) for y in range(8) for x in range(32) if catcher.rows[y][x // 8] & (0x80 >> x % 8)]


class Walk:
    """Goes through the sequence and notes screens on the way."""

    def __init__(self):
        self.seq = Sequencer(Shelf(), lambda loaded: 0)
        self.seq.ledger.next_sheet = 41
        self.now_ms = 0
        self.shown: list[tuple[str, str, bool]] = []

    def go(self, event: str, passed_ms: int, arg: int | None = None) -> None:
        """Time passes, timers speak, then one event."""
        self.now_ms += passed_ms
        while self.seq.due_ms() != st.NEVER_MS and self.seq.due_ms() <= self.now_ms:
            self.seq.tick(self.seq.due_ms())
            self.seq.effects.clear()
        self.seq.handle(event, self.now_ms - 100 if arg is None else arg, self.now_ms)
        self.seq.effects.clear()

    def look(self, name: str, after_ms: int = 0) -> None:
        """Note the screen `after_ms` from now."""
        now_ms = self.now_ms + after_ms
        text, big, _, _ = screens.screen(self.seq, now_ms)
        self.shown.append((name, text, big))

    def pages(self, name: str, count: int, after_ms: int = 0) -> None:
        """Note screens that stand in turn."""
        for page in range(count):
            self.look(name, after_ms + page * screens.PAGE_MS)


def walk() -> list[tuple[str, str, bool]]:
    """(state, text, big) of every screen."""
    at = Walk()
    choosing(at)
    baths(at)
    lights(at)
    ends(at)
    broken(at)
    faults(at)
    return at.shown


def choosing(at: Walk) -> None:
    """Idle, the sheet, ready, the menu."""
    at.look("idle: a sequence")
    for entry in ("idle: the set-up light", "idle: the last sheet", "idle: brightness"):
        at.go(st.SHORT, 1000)
        at.look(entry)
    at.go(st.SHORT, 1000)
    at.go(st.LONG, 2000)
    at.look("pick: which sheet")
    at.go(st.LONG, 2000)
    at.pages("ready for the first step, in turn", 4)
    at.go(st.LONG, 2000)
    for _ in st.MENU_ENTRIES:
        at.look("menu")
        at.go(st.SHORT, 500)
    at.go(st.LONG, 2000)


def baths(at: Walk) -> None:
    """A bath to its over-time, and a step judged by eye."""
    at.go(st.SHORT, 2000)
    at.look("bath: its name first")
    at.look("bath: then the time left", 20_000)
    at.look("bath: in the last seconds the next tray and tongs between", 77_500)
    at.go(st.BEAT, 82_000)
    at.look("lift and drip")
    at.go(st.BEAT, 20_000)
    at.look("over time")
    at.go(st.SHORT, 1000)
    at.look("until pressed: its name first")
    at.look("until pressed: then the time passed", 65_000)
    at.go(st.SHORT, 66_000)


def lights(at: Walk) -> None:
    """A light that is stopped."""
    at.look("before a light: the wet sheet settles")
    at.pages("ready for a light, in turn", 6, 6 * screens.PAGE_MS)
    at.go(st.SHORT, 20_000)
    at.look("lit: what remains", 1600)
    at.go(st.GATE, 4800, 4800)
    at.look("off with a remainder")
    at.go(st.LONG, 3000)


def ends(at: Walk) -> None:
    """A pause, a step by hand, the end, the set-up light."""
    at.look("pause")
    at.go(st.SHORT, 3000)
    at.go(st.SHORT, 3000)
    at.go(st.BEAT, 9500)
    at.look("by hand: what the cue says")
    at.go(st.SHORT, 11_000)
    at.go(st.SHORT, 70_000)
    at.pages("finished, in turn", 2)
    at.go(st.SHORT, 2000)
    at.go(st.SHORT, 2000)
    at.go(st.LONG, 3000)
    at.pages("set-up light, in turn", 3)


def broken(at: Walk) -> None:
    """After a power cut in a light."""
    found = Recovery()
    found.run, found.slot, found.sha, found.first_sheet = 7, 1, SHA, 41
    found.come_to(3, 41)
    found.tally.add(3, 1200, 5600)
    at.seq.resume_broken(program.check(RAW), found, at.now_ms)
    at.seq.entered_ms = 0
    at.now_ms = 0
    at.pages("after a power cut, in turn: light at least and at most", 5)
    at.go(st.LONG, 6000)
    for what in ("what is surely missing", "no more", "up to the whole"):
        at.look(f"after a power cut, still given: {what}")
        at.go(st.SHORT, 1000)
    at.go(st.LONG, 3000)
    at.pages("then ready for it, in turn: what it has had first", 4, 9600)


def faults(at: Walk) -> None:
    """Every fault's word."""
    for code, word in st.FAULTS:
        at.seq.state, at.seq.fault_code = st.FAULT, code
        at.look(f"fault: {meanings.FAULTS[word].meaning}")


def svg(shown: list[tuple[str, str, bool]]) -> str:
    """All screens on one sheet."""
    across, cell_w, cell_h, dot = 4, 290, 108, 8
    rows = -(-len(shown) // across)
    out = [
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{across * cell_w}" height="{rows * cell_h}"'
        ' font-family="sans-serif" font-size="9">',
        '<rect width="100%" height="100%" fill="white"/>',
    ]
    for number, (name, text, big) in enumerate(shown):
        x0, y0 = number % across * cell_w + 12, number // across * cell_h + 24
        label = name if len(name) <= 62 else name[:60] + "…"
        out.append(f'<text x="{x0}" y="{y0 - 6}">{label}</text>')
        out.append(
            f'<rect x="{x0}" y="{y0}" width="{32 * dot + 8}" height="{8 * dot + 8}" fill="#160404" rx="3"/>'
        )
        out += [
            f'<circle cx="{x0 + 8 + x * dot}" cy="{y0 + 8 + y * dot}" r="3.1" fill="#ff3b24"/>'
            for x, y in dots(text, big)
        ]
    return "\n".join([*out, "</svg>", ""])


def page(shown: list[tuple[str, str, bool]]) -> str:
    """The table of texts."""
    return HEAD + "".join(f"| {name} | `{text}` |\n" for name, text, _ in shown)


if __name__ == "__main__":
    everything = walk()
    PICTURE.write_text(svg(everything), encoding="utf-8")
    PAGE.write_text(page(everything), encoding="utf-8")
