"""Stories told to the sheet ledger in place of a bench: what lamp, foot, display and journal do, by hand.

No firmware has a part in them: they are written from the public pages, honest or with one fault planted.
"""

import base64
import hashlib
import json
import zlib
from typing import Any

from footlight.bench import events as ev
from footlight.bench.events import Event
from footlight.bench.sheet_ledger import SheetLedger

PROGRAM = {
    "v": 1,
    "title": "PRINT",
    "name": "a print",
    "sheets": 1,
    "lamps": [{"name": "ENL", "cap_ms": 60_000, "window_ms": 300_000}],
    "steps": [
        {"kind": "bath", "name": "developer", "show": "DEV", "time_ms": 8000},
        {"kind": "light", "name": "second", "show": "BLACKS", "time_ms": 2400, "dead_ms": 50},
        {"kind": "bath", "name": "fix", "show": "FIX", "time_ms": 8000},
    ],
}
LIGHT, DEAD_MS = 2, 50


def frame(fields: dict[str, Any]) -> bytes:
    """An object as a frame of the link, between its newlines."""
    body = json.dumps(fields, separators=(",", ":"), sort_keys=True).encode()
    return b"\n" + body + b"%08x" % zlib.crc32(body) + b"\n"


class StandIn:
    """What the ledger asks of a bench."""

    def __init__(self) -> None:
        self.now_us = 0
        self.lives = 0
        self.heard: list[tuple[int, bytes]] = []
        self.ears: list[Any] = []
        self.readers: list[Any] = []
        self.listeners: list[Any] = []
        self.events: list[Event] = []


class Story:
    """One controller, one ledger; `replay` as for a bench."""

    def __init__(self, program: dict[str, Any] = PROGRAM, is_sent: bool = True) -> None:
        self.bench = StandIn()
        self.ledger = SheetLedger(self.bench, "a story")  # type: ignore[arg-type]
        self.records: list[dict[str, Any]] = []
        self.data = json.dumps(program).encode()
        self.sha = hashlib.sha256(self.data).hexdigest()
        self.switch_on()
        if is_sent:
            self.send()

    def send(self) -> None:
        """The program comes over the cable, in two pieces."""
        half = len(self.data) // 2
        pieces = [(0, self.data[:half]), (half, self.data[half:])]
        puts = [{"slot": 1, "offset": at, "data": base64.b64encode(data).decode()} for at, data in pieces]
        self.ask("begin", {"slot": 1, "sha256": self.sha, "length": len(self.data)})
        for put in puts:
            self.ask("put", put)
        self.ask("commit", {"slot": 1, "sha256": self.sha})

    def ask(self, method: str, params: dict[str, Any]) -> None:
        """A request of the computer."""
        data = frame({"jsonrpc": "2.0", "id": "abcd.1", "method": method, "params": params})
        for ear in self.bench.ears:
            ear(self.bench.now_us, data)

    def reply(self, record: dict[str, Any]) -> None:
        """The controller's answer to `records`."""
        line = frame(record).strip().decode()
        result = {"epoch": "0", "first": 1, "last": 9, "line": line}
        for reader in self.bench.readers:
            reader(frame({"jsonrpc": "2.0", "id": "abcd.2", "result": result}))
        self.happen(ev.TONE, "0")

    def happen(self, kind: str, text: str) -> None:
        """One event, now."""
        for listener in self.bench.listeners:
            listener(Event(self.bench.now_us, kind, text))

    def wait(self, ms: float) -> "Story":
        """Time passes."""
        self.bench.now_us += round(ms * 1000)
        self.happen(ev.TONE, "0")
        return self

    def show(self, *pages: str) -> "Story":
        """Pages of the display, 1.2 s each."""
        for page in pages:
            self.happen(ev.FRAME, page)
            self.wait(1200)
        return self

    def tap(self, ms: float = 150) -> "Story":
        """A press and its release."""
        self.happen(ev.PEDAL, "1 0")
        self.wait(ms)
        self.happen(ev.PEDAL, "0 1")
        return self.wait(25)

    def hold(self) -> "Story":
        """A long press."""
        return self.tap(1500)

    def record(self, kind: str, **fields: Any) -> "Story":
        """A record becomes durable."""
        number = len(self.records) + 1
        whole = {"n": number, "t": self.bench.now_us // 1000, "k": kind, "run": 1, "sheet": 1} | fields
        self.records.append(whole)
        self.happen(ev.RECORD, json.dumps(whole))
        return self

    def switch_on(self) -> "Story":
        """The firmware starts."""
        self.bench.lives += 1
        self.happen(ev.WHITE, "0")
        return self

    def lose_power(self) -> "Story":
        """Power off and on."""
        self.happen(ev.GATE, "0")
        self.happen(ev.PUMP, "0")
        return self.wait(2000).switch_on()

    # -- what a run is made of ---------------------------------------------------------------------

    def arm(self, sheet: int = 1, sheets: int = 1, run: int = 1) -> "Story":
        """A run begins with this sheet."""
        fields = {"slot": 1, "sha": self.sha[:16], "title": "PRINT", "sheets": sheets}
        return self.record("arm", sheet=sheet, run=run, **fields)

    def pick(self, *numbers: int) -> "Story":
        """From the title to the last of these numbers, which is taken."""
        self.show("PRINT").hold()
        for number in numbers[:-1]:
            self.show(f"NR {number}").tap()
        return self.show(f"NR {numbers[-1]}").hold().arm(numbers[-1]).show("PENCIL", str(numbers[-1]))

    def bath(self, step: int, sheet: int = 1, how: str = "pedal") -> "Story":
        """A bath from its tap to the next tray."""
        self.record("begin", step=step, sheet=sheet).wait(8500)
        return self.record("step", step=step, sheet=sheet, start=0, real_ms=8500, how=how)

    def offer(self, light_ms: int = 2400, sheet: int = 1, step: int = LIGHT) -> "Story":
        """Light is offered, by the journal alone."""
        fields = {"light_ms": light_ms, "gate_ms": light_ms + DEAD_MS, "sha": self.sha[:16]}
        return self.record("intent", step=step, sheet=sheet, **fields)

    def burn(self, light_ms: float, pump: bool = True) -> "Story":
        """The lamp gives so much light, if the pump runs."""
        self.happen(ev.GATE, "1")
        self.happen(ev.PUMP, f"{pump:d}")
        self.wait(light_ms + DEAD_MS)
        self.happen(ev.GATE, "0")
        self.happen(ev.PUMP, "0")
        return self

    def gave(self, light_ms: int, how: str, sheet: int = 1, **fields: Any) -> "Story":
        """A light is recorded."""
        gate_ms = light_ms + DEAD_MS if light_ms else 0
        told = {"step": LIGHT, "light_ms": light_ms, "gate_ms": gate_ms, "left_ms": 0, "how": how}
        return self.record("gave", sheet=sheet, **(told | fields))

    def learn(self) -> "Story":
        """The level of the lamp is learnt: from now on its light may be counted."""
        learnt = {"lamp": "ENL", "level": 24_000, "dark": 80, "warm_ms": 0, "tail_ms": 40, "power": 1_000}
        self.ask("learn", learnt)
        return self

    def dose(self, dose_ms: int, how: str = "counted", sheet: int = 1) -> "Story":
        """How a light was measured is recorded."""
        levels = {"least": 900, "mean": 900, "most": 900}
        return self.record("dose", step=LIGHT, sheet=sheet, dose_ms=dose_ms, how=how, **levels)

    def whole(self, sheet: int = 1) -> "Story":
        """The whole light, as it should be."""
        return self.offer(sheet=sheet).show("BLACKS", "2.4S").tap().burn(2400).gave(2400, "whole", sheet)

    def cut(self, step: int, least_ms: int = 0, most_ms: int = 0, **fields: Any) -> "Story":
        """Power off and on; the journal says what was broken off."""
        return self.lose_power().record("cut", step=step, least_ms=least_ms, most_ms=most_ms, **fields)
