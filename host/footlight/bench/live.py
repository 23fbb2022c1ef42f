"""The bench by hand: keys, or words of a script, become a foot; the room is drawn, or told in lines."""

import os
import sys
import threading
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field, replace

from footlight.bench import keys
from footlight.bench.bench import Bench
from footlight.bench.pace import Pace
from footlight.bench.scene import Scene, Told
from footlight.errors import FootlightError

TAP_MS = 150
LONG_MS = 1500
SPEEDS = (1.0, 2.0, 5.0, 10.0, 20.0, 50.0)
FRAME_S = 0.05
KEYS = (
    ("space", "foot down / up"),
    ("t", "tap"),
    ("l", "long press"),
    ("p", "power"),
    ("+ -", "speed"),
    ("q", "end"),
)
WARNING = "practice only: the light of a screen fogs paper"


@dataclass
class Desk:
    """A bench with all that a hand may touch there."""

    bench: Bench
    pace: Pace
    scene: Scene
    port: str
    for_s: float | None = None
    foot_down: bool = False
    presses: int = 0
    ended: threading.Event = field(default_factory=threading.Event)
    broken: FootlightError | None = None  # what a word on the standard input has brought about

    def press(self) -> None:
        """The foot goes down."""
        self._move(True)

    def release(self) -> None:
        """The foot comes up."""
        self._move(False)

    def toggle(self) -> None:
        """The foot goes down, or up again."""
        self._move(not self.foot_down)

    def tap(self) -> None:
        """A short press."""
        self._press_for(TAP_MS)

    def long(self) -> None:
        """A long press."""
        self._press_for(LONG_MS)

    def power(self) -> None:
        """Power off, or on again."""
        with self.bench.lock:
            if self.bench.is_on:
                self.bench.cut_power()
            else:
                self.bench.switch_on()
            self.scene.tell_power()

    def faster(self) -> None:
        """The next higher speed."""
        self.pace.speed = min((speed for speed in SPEEDS if speed > self.pace.speed), default=self.pace.speed)

    def slower(self) -> None:
        """The next lower speed."""
        self.pace.speed = max((speed for speed in SPEEDS if speed < self.pace.speed), default=self.pace.speed)

    def end(self) -> None:
        """No more of it."""
        self.ended.set()

    def moments(self) -> Iterator[None]:
        """One after another until the end."""
        until_s = time.monotonic() + self.for_s if self.for_s is not None else None
        while not (self.ended.is_set() or self.pace.stopped.is_set()):
            yield
            if until_s is not None and time.monotonic() >= until_s:
                return
            self.ended.wait(FRAME_S)

    def _press_for(self, span_ms: int) -> None:
        # A foot that is down already comes up first, as a foot must.
        self.release()
        self.press()
        this = self.presses
        self.pace.after(span_ms, lambda: self.release() if self.presses == this else None)

    def _move(self, down: bool) -> None:
        with self.bench.lock:
            if down != self.foot_down:
                self.foot_down = down
                self.presses += down
                self.bench.contacts(down, not down)


def show(desk: Desk) -> None:
    """Draw the room in the terminal until the end; keys are the foot."""
    from rich.console import Console
    from rich.live import Live

    console = Console()
    with keys.reading() as reader, Live(console=console, screen=True, auto_refresh=False) as live:
        for _ in desk.moments():
            for stroke in reader.strokes():
                _obey(desk, stroke)
            desk.scene.take_told()
            live.update(_picture(desk, console.width, console.height), refresh=True)


def tell(desk: Desk, write: Callable[[Told], None]) -> None:
    """Tell what happens until the end; words on the standard input are the foot."""
    threading.Thread(target=_listen, args=(desk,), name="bench words", daemon=True).start()
    for _ in desk.moments():
        for told in desk.scene.take_told():
            write(told)
    if desk.broken:
        raise desk.broken


def _obey(desk: Desk, stroke: keys.Stroke) -> None:
    if stroke.key == " ":
        moves = {"plain": desk.toggle, "down": desk.press, "up": desk.release}
        moves.get(stroke.event, lambda: None)()
    elif stroke.event in ("plain", "down"):
        does = {
            "t": desk.tap,
            "l": desk.long,
            "p": desk.power,
            "+": desk.faster,
            "=": desk.faster,  # the same key, where it is reported without its shift
            "-": desk.slower,
            "q": desk.end,
            keys.STOP: desk.end,
        }
        does.get(stroke.key.lower(), lambda: None)()


def _listen(desk: Desk) -> None:
    words = {"tap": desk.tap, "long": desk.long, "down": desk.press, "up": desk.release}
    words |= {"power": desk.power, "end": desk.end}
    for word in _words():
        if word in words:
            try:
                words[word]()
            except FootlightError as error:
                desk.broken = error  # raised where the desk is left, not in this thread
                desk.end()
        elif word:
            print(f"'{word}' is no word here; there are: {', '.join(words)}", file=sys.stderr)


def _words() -> Iterator[str]:
    # Not through sys.stdin: a thread that waits there keeps the whole process from ending.
    pending = b""
    while data := os.read(0, 4096):
        *lines, pending = (pending + data).split(b"\n")
        for line in lines:
            yield line.decode(errors="replace").strip()
    yield pending.decode(errors="replace").strip()


def _picture(desk: Desk, columns: int, rows: int):
    from footlight.bench.room import draw

    room = replace(
        desk.scene.room(),
        foot_down=desk.foot_down,
        speed=f"×{desk.pace.speed:g}",
        port=f"--port {desk.port}",
        keys=KEYS,
        warning=WARNING,
    )
    return draw(room, columns, rows)
