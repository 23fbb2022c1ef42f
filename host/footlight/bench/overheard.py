"""What the referee overhears of the cable: which programs have been brought to the controller."""

import hashlib
from typing import Any

from footlight.bench.bench import Bench
from footlight_core import program as programs
from footlight_core import records, wire
from footlight_core.errors import CoreError

_NEVER_US = -(1 << 60)
_MOST_PROGRAMS = 64  # far more than slots and runs under way; an older one is judged by its records alone


class Overheard:
    """Reads the computer's side of the cable, what was said before as well."""

    def __init__(self, bench: Bench) -> None:
        self._said_us = _NEVER_US
        self._lines = wire.LineBuffer()
        self._uploads: dict[int, bytearray] = {}
        self._commits: set[str] = set()
        self._programs: dict[str, dict[str, Any]] = {}
        self.has_learnt = False  # was a lamp's level ever learnt, so that its light may be counted?
        for t_us, data in bench.heard:
            self._hear(t_us, data)
        bench.ears.append(self._hear)

    def last_us(self) -> int:
        """When the computer last said anything [us]; long ago if it never did."""
        return self._said_us

    def committed(self, sha: str) -> bool:
        """Was a program whose SHA-256 begins like this ever asked to be committed?"""
        return sha in self._commits

    def program(self, sha: str) -> dict[str, Any] | None:
        """The checked program whose SHA-256 begins like this, if all of it was overheard."""
        return self._programs.get(sha)

    def _hear(self, t_us: int, data: bytes) -> None:
        self._said_us = t_us
        for byte in data:
            line = self._lines.feed(byte)
            if line:
                self._take(line)

    def _take(self, line: bytes) -> None:
        message, _ = wire.decode(line)
        if not message:
            return
        name, params = message.get("method"), message.get("params")
        rules = wire.find_message(name) if isinstance(name, str) else None
        if not rules or not isinstance(params, dict):
            return
        try:
            wire.check_params(rules[1], params)
            if name == "put":
                self._put(params["slot"], params["offset"], wire.unpack(params["data"]))
            elif name == "commit":
                self._commit(params["slot"], params["sha256"])
            elif name == "learn":
                self.has_learnt = True
        except CoreError:
            return

    def _put(self, slot: int, offset: int, data: bytes) -> None:
        upload = self._uploads.setdefault(slot, bytearray())
        upload[offset : offset + len(data)] = data

    def _commit(self, slot: int, sha: str) -> None:
        short = sha[: records.SHA_CHARS]
        self._commits.add(short)
        upload = bytes(self._uploads.get(slot, b""))
        # A longer upload of the same slot may lie beneath: every prefix of it that ends an object is tried.
        for length in range(len(upload), 0, -1):
            if upload[length - 1] == 0x7D and hashlib.sha256(upload[:length]).hexdigest() == sha:
                self._programs.pop(short, None)
                self._programs[short] = programs.parse(upload[:length])
                break
        while len(self._programs) > _MOST_PROGRAMS:
            del self._programs[next(iter(self._programs))]
