"""A controller in this process: the real `Session` over a store and a journal in memory, behind a stream.

The stream is where things go wrong: replies lost, doubled, cut off, noise between them.
"""

import hashlib
from collections.abc import Callable
from typing import Any

from footlight_core import program, records, wire
from footlight_core.errors import Refusal
from footlight_core.sensor import LEARNT, Sensor
from footlight_core.session import Session


class MemoryStore:
    """Slots in memory, by the rules that the controller's store keeps."""

    def __init__(self) -> None:
        self.held: dict[int, bytes] = {}
        self.arriving: dict[int, tuple[str, int, bytearray]] = {}
        self.commits = 0
        self.sensor = Sensor()

    def known(self) -> dict[str, object]:
        lamps = [[name, *learnt] for name, learnt in self.sensor.lamps.items()]
        return {"fitted": self.sensor.fitted, "lamps": lamps}

    def fit(self, fitted: int) -> None:
        self.sensor.fitted = fitted

    def learn(self, params: dict[str, Any]) -> None:
        self.sensor.learn(params["lamp"], [params[rule[0]] for rule in LEARNT])

    def slots(self) -> list[list[object]]:
        return [
            [number, program.parse(data)["title"], hashlib.sha256(data).hexdigest()[:16]]
            for number, data in sorted(self.held.items())
        ]

    def begin(self, slot: int, sha256: str, length: int) -> int:
        known = self.arriving.get(slot)
        if known is None or known[:2] != (sha256, length):
            self.arriving[slot] = (sha256, length, bytearray())
        return len(self.arriving[slot][2])

    def put(self, slot: int, offset: int, data: bytes) -> int:
        if slot not in self.arriving:
            raise Refusal("no_upload", "begin first")
        buffer = self.arriving[slot][2]
        if offset > len(buffer):
            raise Refusal("bad_offset", "that is too far")
        buffer[offset:] = data
        return len(buffer)

    def commit(self, slot: int, sha256: str) -> str:
        if slot in self.held and hashlib.sha256(self.held[slot]).hexdigest() == sha256:
            return program.parse(self.held[slot])["title"]
        if slot not in self.arriving or self.arriving[slot][0] != sha256:
            raise Refusal("no_upload", "begin first")
        data = bytes(self.arriving.pop(slot)[2])
        if hashlib.sha256(data).hexdigest() != sha256:
            raise Refusal("bad_hash", "not what was announced")
        title = program.parse(data)["title"]
        self.held[slot] = data
        self.commits += 1
        return title

    def clear(self, slot: int) -> None:
        if slot not in self.held:
            raise Refusal("no_slot", "empty")
        del self.held[slot]


class MemoryJournal:
    """A journal in memory."""

    def __init__(self, epoch: str = "e1") -> None:
        self.epoch = epoch
        self.lines: dict[int, str] = {}
        self.first = 1

    def add(self, t_ms: int, kind: str, **fields: object) -> int:
        number = self.last + 1
        record = {"k": kind, "n": number, "t": t_ms} | fields
        self.lines[number] = records.seal(record).decode()
        return number

    @property
    def last(self) -> int:
        return max(self.lines, default=self.first - 1)

    def state(self) -> dict[str, object]:
        return {"epoch": self.epoch, "first": self.first, "last": self.last}

    def line(self, number: int) -> str:
        if number > self.last:
            raise Refusal("past_end", f"the last is {self.last}")
        return self.lines.get(number, "")

    def keep_up_to(self, last: int) -> None:
        self.first = max(self.first, min(last, self.last) + 1)
        self.lines = {number: line for number, line in self.lines.items() if number >= self.first}

    def note_date(self, unix_s: int) -> None:
        self.add(1000, "date", unix_s=unix_s)


class Box:
    """A whole controller: store, journal, and a session that a restart makes new."""

    def __init__(self, box_id: str = "box-1") -> None:
        self.store = MemoryStore()
        self.journal = MemoryJournal()
        self.box_id = box_id
        self.idle = True
        self.used = 0
        self.restart()

    def count_on(self, sheet: int) -> int:
        """Numbers up to this one are used."""
        self.used = max(self.used, sheet)
        return self.used + 1

    def restart(self) -> None:
        """As after switching off and on: uploads under way and the session are forgotten."""
        self.store.arriving.clear()
        self.session = Session(
            self.store,
            self.journal,
            {"id": self.box_id},
            lambda: {"state": "idle"},
            lambda: self.idle,
            lambda: None,
            self.count_on,
            lambda: {"reading": 24_000, "lit": 0, "t": 1, "tail_ms": -1},
        )


Spoil = Callable[[int, bytes], bytes]


class BoxStream:
    """A stream to a box. `spoil(count, reply)` gives what really arrives of each reply."""

    def __init__(self, box: Box, spoil: Spoil = lambda count, reply: reply) -> None:
        self.name = "fake port"
        self.box = box
        self.spoil = spoil
        self.replies = 0
        self.sent = bytearray()
        self._lines = wire.LineBuffer()
        self._waiting = bytearray()

    def write(self, data: bytes) -> None:
        self.sent += data
        for byte in data:
            line = self._lines.feed(byte)
            reply = self.box.session.handle(line) if line else None
            if reply:
                self.replies += 1
                self._waiting += self.spoil(self.replies, reply)

    def read(self, size: int) -> bytes:
        data = bytes(self._waiting[:size])
        del self._waiting[:size]
        return data

    def close(self) -> None:
        pass


class TextStream:
    """Somebody else at the port, who answers everything with the same bytes."""

    def __init__(self, text: bytes, echo: bool = False) -> None:
        self.name = "fake port"
        self.writes = 0
        self._text = text
        self._echo = echo
        self._waiting = b""

    def write(self, data: bytes) -> None:
        self.writes += 1
        self._waiting += (data if self._echo else b"") + self._text

    def read(self, size: int) -> bytes:
        data, self._waiting = self._waiting[:size], self._waiting[size:]
        return data

    def close(self) -> None:
        pass


class FastClock:
    """Seconds that pass by being looked at, so that no test waits."""

    def __init__(self, step_s: float = 0.05) -> None:
        self.now_s = 0.0
        self._step_s = step_s

    def __call__(self) -> float:
        self.now_s += self._step_s
        return self.now_s


def program_bytes(title: str = "PENCIL", steps: int = 4) -> bytes:
    """The bytes of a program that the controller takes."""
    baths = [
        {"kind": "bath", "name": f"bath {number}", "show": f"BATH{number}", "time_ms": 60_000}
        for number in range(1, steps + 1)
    ]
    raw = {"v": 1, "title": title, "name": title.lower(), "lamps": [], "steps": baths}
    return wire.dumps(raw).encode()


def sha_of(data: bytes) -> str:
    """SHA-256 in hex."""
    return hashlib.sha256(data).hexdigest()
