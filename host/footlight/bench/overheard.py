"""What the referee overhears of the cable: which programs have been brought to the controller."""

import hashlib
from typing import TYPE_CHECKING, Any

from footlight_core import program as programs
from footlight_core import records, wire
from footlight_core.errors import CoreError

if TYPE_CHECKING:
    from footlight.bench.bench import Bench


class Overheard:
    """Reads the computer's side of the cable, as late as it is asked."""

    def __init__(self, bench: "Bench") -> None:
        self._bench = bench
        self._read = 0
        self._lines = wire.LineBuffer()
        self._uploads: dict[int, bytearray] = {}
        self._commits: set[str] = set()
        self._programs: dict[str, dict[str, Any]] = {}

    def last_us(self) -> int:
        """When the computer last said anything [us]; long ago if it never did."""
        return self._bench.heard[-1][0] if self._bench.heard else -(1 << 60)

    def committed(self, sha: str) -> bool:
        """Was a program whose SHA-256 begins like this ever asked to be committed?"""
        self._catch_up()
        return sha in self._commits

    def program(self, sha: str) -> dict[str, Any] | None:
        """The checked program whose SHA-256 begins like this, if all of it was overheard."""
        self._catch_up()
        return self._programs.get(sha)

    def _catch_up(self) -> None:
        heard = self._bench.heard
        while self._read < len(heard):
            for byte in heard[self._read][1]:
                line = self._lines.feed(byte)
                if line:
                    self._take(line)
            self._read += 1

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
                self._programs[short] = programs.parse(upload[:length])
                return
