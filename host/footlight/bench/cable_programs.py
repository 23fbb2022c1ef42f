"""What the cable tells, by the public page of the link: programs on their way in, records on their way out.

Written from `docs/protocol.md` alone, with the standard library's own CRC-32 and SHA-256.
"""

import base64
import binascii
import hashlib
import json
import zlib
from typing import Any

from footlight.bench.bench import Bench

SHA_CHARS = 16  # of a program's hash, in a record
_CRC_CHARS = 8
_LONGEST_LINE = 4096  # ten times the longest frame: what is longer is nobody's frame

Fields = dict[str, Any]


def read_frame(line: bytes) -> Fields | None:
    """A line of the cable -> its object; None if it is somebody else's text."""
    body, crc = line[:-_CRC_CHARS], line[-_CRC_CHARS:]
    if not line.startswith(b"{") or crc != b"%08x" % zlib.crc32(body):
        return None
    try:
        fields = json.loads(body)
    except (ValueError, RecursionError):
        return None
    return fields if isinstance(fields, dict) else None


class Lines:
    """Whole lines out of bytes that come in pieces; only those that hold one of `wanted`."""

    def __init__(self, *wanted: bytes) -> None:
        self._wanted = wanted
        self._rest = b""

    def take(self, data: bytes) -> list[Fields]:
        """The frames that these bytes complete."""
        *lines, self._rest = (self._rest + data).split(b"\n")
        self._rest = self._rest[-_LONGEST_LINE:]
        frames = [read_frame(line) for line in lines if any(word in line for word in self._wanted)]
        return [frame for frame in frames if frame is not None]


class CablePrograms:
    """Listens to a bench's cable: the programs that were brought to it, the records that it sent."""

    def __init__(self, bench: Bench) -> None:
        self.told: list[Fields] = []  # records read over the link since the last look
        self._in = Lines(b'"begin"', b'"put"', b'"commit"', b'"learn"')
        self.has_learnt = False  # was the level of a lamp brought, so that its light may be counted?
        self._out = Lines(b'"line"')
        self._lengths: dict[int, int] = {}
        self._bytes: dict[int, bytearray] = {}
        self._programs: dict[str, Fields] = {}
        for t_us, data in bench.heard:
            self._hear(t_us, data)
        bench.ears.append(self._hear)
        bench.readers.append(self._read)

    def program(self, sha: str) -> Fields | None:
        """The program whose SHA-256 begins like this, if all of it passed over the cable."""
        return self._programs.get(sha)

    def _hear(self, t_us: int, data: bytes) -> None:
        for frame in self._in.take(data):
            try:
                self._take(frame["method"], frame["params"])
            except (KeyError, TypeError, ValueError, AttributeError, RecursionError):
                continue  # no request of the page: the controller refuses it, and so it brings nothing

    def _take(self, method: str, params: Fields) -> None:
        if method == "learn":
            self.has_learnt = True
            return
        slot = int(params["slot"])
        if method == "begin":
            self._lengths[slot] = int(params["length"])
            self._bytes.setdefault(slot, bytearray())
        elif method == "put":
            piece, offset = base64.b64decode(params["data"], validate=True), int(params["offset"])
            self._bytes[slot][offset : offset + len(piece)] = piece
        elif method == "commit":
            data = bytes(self._bytes[slot][: self._lengths[slot]])
            if hashlib.sha256(data).hexdigest() == params["sha256"]:
                self._programs[params["sha256"][:SHA_CHARS]] = json.loads(data)

    def _read(self, data: bytes) -> None:
        for frame in self._out.take(data):
            result = frame.get("result")
            line = result.get("line") if isinstance(result, dict) else None
            try:
                record = read_frame(line.encode("ascii")) if isinstance(line, str) and line else None
            except (UnicodeEncodeError, binascii.Error):
                record = None
            if record is not None:
                self.told.append(record)
