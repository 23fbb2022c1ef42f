"""The installed firmware on the emulated chip, from power to a finished run, with its numbers taken.

The computer's side is the real link. The firmware's files are those that are installed; only a small
`main.py` is put before them that tells, as text on the cable, what no message tells: the heap that is free
whenever a run is armed, and the longest turn of the loop. Turns that write are left out, and those that load
a sequence, for then no run is under way.
"""

import functools
import hashlib
from dataclasses import dataclass, field
from typing import Any

from tests.emulated import image
from tests.emulated.chip import Chip
from tests.emulated.stage import GATE, SPI, foot_down, foot_off

from footlight.install import image as installing
from footlight.link import journal, upload
from footlight.link.channel import Channel
from footlight_core import session, wire

LIGHT_MS, DEAD_MS = 400, 50
STOPPED_AFTER_MS = 150

_LAMP = {"name": "ENL", "cap_ms": 60_000, "window_ms": 300_000}
_LIGHT = {"kind": "light", "name": "second", "show": "LIGHT", "time_ms": LIGHT_MS, "dead_ms": DEAD_MS}
_BATH = {"kind": "bath", "name": "fix", "show": "FIX", "time_ms": 2_000, "lift_ms": 1_000}
_STEPS = [_LIGHT, _LIGHT, _BATH]
PROGRAM = {"v": 1, "title": "PRINT", "name": "a print", "lamps": [_LAMP], "steps": _STEPS}

# Turns are told apart by the watchdog's feeding, which comes once in each.
_MAIN = """
import gc, time
from controller import guard
class Told(guard.Guard):
    last_ms = longest_ms = 0
    def start(self):
        super().start()
        self.last_ms = time.ticks_ms()
    def free_heap(self):
        free = super().free_heap()
        print("HEAP", free, free + gc.mem_alloc())
        self.last_ms = self.longest_ms = 0
        return free
    def feed_for_writing(self):
        super().feed_for_writing()
        self.last_ms = 0
    def feed_if_all_reported(self):
        now_ms = time.ticks_ms()
        if self.last_ms:
            turn_ms = time.ticks_diff(now_ms, self.last_ms)
            if turn_ms > self.longest_ms:
                self.longest_ms = turn_ms
                print("TURN", turn_ms)
        self.last_ms = now_ms
        return super().feed_if_all_reported()
guard.Guard = Told
import installed
installed.main()
"""


@dataclass
class Numbers:
    """What was measured. Spans of the gate in us, all else as named."""

    ready_ms: float = 0.0
    heap_bytes: int = 0
    heap_all_bytes: int = 0
    longest_turn_ms: int = 0
    release_to_gate_ms: list[float] = field(default_factory=list)
    press_to_dark_ms: float = 0.0
    gate_us: list[float] = field(default_factory=list)
    records: list[dict[str, Any]] = field(default_factory=list)
    state: str = ""
    erases_while_lit: int = 0
    resets: int = 0


@functools.cache
def measure() -> Numbers:
    """Boot, upload, run, read the journal; once for everybody who asks."""
    return _Print().run()


class _Print:
    def __init__(self) -> None:
        files = dict(image.firmware())
        files["installed.mpy"] = installing.compiled("main.py", files["main.py"].decode())
        files["main.py"] = _MAIN.encode()
        self.chip = Chip(image.file_system(files))
        foot_off(self.chip)
        self.gate = self.chip.watch(GATE)
        self.numbers = Numbers()
        self._frames: list[float] = []
        self._text = b""
        self._take_frames()

    def run(self) -> Numbers:
        self._wait(lambda: bool(self._frames), 5_000, "a first frame")
        self.numbers.ready_ms = self._frames[0]
        channel = Channel(self.chip.cable, clock=self.chip.cable.clock)
        channel.greet()
        data = wire.dumps(PROGRAM).encode()
        upload.send(channel, data, hashlib.sha256(data).hexdigest(), "PRINT", slot=1)
        self._listen()
        self._arm()
        self._first_light()
        self._second_light()
        self._bath()
        self._ask_for_the_end(channel)
        return self.numbers

    def _arm(self) -> None:
        for _ in range(2):
            self._tap(1_300)
            self.chip.run_for(900)
        self._listen()

    def _first_light(self) -> None:
        self._start_light()
        self._wait(lambda: len(self.gate) == 2, LIGHT_MS + 300, "the end of the first light")
        self.chip.run_for(900)

    def _second_light(self) -> None:
        """Under traffic; stopped by the foot, then resumed."""
        hello = {"nonce": "load", "least": 1, "most": 1, "schema": session.schema(), "unix_s": 0}
        self._request(1, "hello", hello)
        for count in range(2, 40):
            self.chip.after(40 * count, functools.partial(self._request, count, "status", {}))
        self._start_light()
        self.chip.run_for(STOPPED_AFTER_MS)
        pressed_ns = self.chip.clock.nanos
        foot_down(self.chip)
        self._wait(lambda: len(self.gate) == 4, 100, "dark by the foot")
        self.numbers.press_to_dark_ms = (self.gate[3][0] - pressed_ns) / 1e6
        self.chip.run_for(150)
        foot_off(self.chip)
        self.chip.run_for(900)
        self._start_light()
        self._wait(lambda: len(self.gate) == 6, LIGHT_MS + 300, "the end of the resumed light")
        self.chip.run_for(900)
        self._listen()

    def _bath(self) -> None:
        self._tap()
        self.chip.run_for(1_600)
        self._tap()
        self.chip.run_for(500)

    def _start_light(self) -> None:
        foot_down(self.chip)
        self.chip.run_for(150)
        edges, released_ns = len(self.gate), self.chip.clock.nanos
        foot_off(self.chip)
        self._wait(lambda: len(self.gate) > edges, 300, "a light")
        self.numbers.release_to_gate_ms.append((self.gate[edges][0] - released_ns) / 1e6)

    def _ask_for_the_end(self, channel: Channel) -> None:
        numbers = self.numbers
        self._listen()
        channel.greet()
        numbers.state = channel.ask("status")["state"]
        numbers.records = [entry.record for entry in journal.read(channel, 1) if entry.record]
        rises, falls = self.gate[::2], self.gate[1::2]
        numbers.gate_us = [(f - r) / 1000 for (r, _), (f, _) in zip(rises, falls, strict=True)]
        numbers.erases_while_lit = sum(
            r < at < f for at in self.chip.erases for (r, _), (f, _) in zip(rises, falls, strict=True)
        )
        numbers.resets = len(self.chip.resets)

    def _request(self, count: int, method: str, params: dict[str, Any]) -> None:
        message = {"jsonrpc": "2.0", "id": f"load.{count}", "method": method, "params": params}
        self.chip.cable.write(wire.frame(message))

    def _tap(self, ms: float = 150) -> None:
        foot_down(self.chip)
        self.chip.run_for(ms)
        foot_off(self.chip)
        self.chip.run_for(60)

    def _listen(self) -> None:
        """What the small main.py told since the last time."""
        self._text += self.chip.cable.take()
        for line in self._text.splitlines():
            word, *values = line.split(b" ")
            if word == b"HEAP":
                self.numbers.heap_bytes, self.numbers.heap_all_bytes = map(int, values)
            elif word == b"TURN":
                self.numbers.longest_turn_ms = max(self.numbers.longest_turn_ms, int(values[0]))

    def _wait(self, wanted: Any, limit_ms: float, what: str) -> None:
        if not self.chip.run_until(wanted, limit_ms):
            raise AssertionError(f"{what} never came; the board said {self.chip.cable.peek()[-600:]!r}")

    def _take_frames(self) -> None:
        spi = self.chip.mcu.spi[SPI]

        def sent(_: int) -> None:
            self._frames.append(self.chip.now_ms)
            spi.complete_transmit(0)

        spi.on_transmit = sent
