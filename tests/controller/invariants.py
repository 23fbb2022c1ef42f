"""What must hold at every event of the bench, whatever is done to it: a listener that collects each breach.

The numbers are those of the invariants in DEVELOPERS.md.
"""

import json
from typing import Any

from footlight.bench import Bench, Event
from footlight.bench import events as ev

GESTURE_MS = 200
_WRITES = (ev.ERASE, ev.PROGRAM, ev.FORMAT)


class Invariants:
    """Listens to a bench. `broken` holds one line for each breach."""

    def __init__(self, bench: Bench) -> None:
        self.broken: list[str] = []
        self._levels: dict[str, int] = {}
        self._foot_us = -1
        self._risen_us = -1
        self._given_ms: float | None = None
        self._intent: dict[str, Any] | None = None
        self._number = 0
        for event in bench.events:
            self.hear(event)
        bench.listeners.append(self.hear)

    def hear(self, event: Event) -> None:
        """Judge one event."""
        if event.kind in (ev.KEYBOARD, ev.WATCHDOG):
            self._levels[event.kind] = event.value
        elif event.kind == ev.PEDAL:
            self._foot_us = event.t_us
        elif event.kind == ev.GATE:
            self._gate(event)
        elif event.kind in _WRITES and self._levels.get(ev.GATE):
            self._breach(event, "I9: the flash is written while the gate is high")
        elif event.kind == ev.RECORD:
            self._record(event, json.loads(event.text))
        elif event.kind in ev.ENDS:
            self._levels = {ev.GATE: self._levels.get(ev.GATE, 0)}
            self._intent = None

    def _gate(self, event: Event) -> None:
        before, self._levels[ev.GATE] = self._levels.get(ev.GATE, 0), event.value
        if event.value and not before:
            self._risen_us = event.t_us
            self._rises(event)
        elif before and not event.value:
            self._given_ms = (event.t_us - self._risen_us) / 1000
            if self._intent and self._given_ms > self._intent["gate_ms"] + 1:
                self._breach(event, f"I3: {self._given_ms} ms of a planned {self._intent['gate_ms']}")

    def _rises(self, event: Event) -> None:
        if self._levels.get(ev.KEYBOARD, 1) or not self._levels.get(ev.WATCHDOG):
            self._breach(event, "I1: keyboard interrupt on, or no watchdog")
        if not 0 <= event.t_us - self._foot_us <= GESTURE_MS * 1000:
            self._breach(event, "I2: no foot moved shortly before")
        if self._intent is None:
            self._breach(event, "I7: no intent is durable")

    def _record(self, event: Event, record: dict[str, Any]) -> None:
        if self._number and record["n"] != self._number + 1:
            self._breach(event, f"I8: record {record['n']} after {self._number}")
        self._number = record["n"]
        if record["k"] == "intent":
            self._intent = record
            self._given_ms = None
        elif record["k"] in ("gave", "focus"):
            self._answer(event, record)

    def _answer(self, event: Event, record: dict[str, Any]) -> None:
        if self._given_ms is not None and abs(record["gate_ms"] - self._given_ms) > 1:
            self._breach(event, f"I14: {record['gate_ms']} ms in the record, {self._given_ms} by the gate")
        if self._given_ms is None and record["gate_ms"]:
            self._breach(event, f"I14: {record['gate_ms']} ms in the record, and the gate never rose")
        self._intent = None

    def _breach(self, event: Event, text: str) -> None:
        self.broken.append(f"{event.t_ms} ms: {text}")
