"""Upload of a long program over a pty, against the same bytes through a bare pty echo."""

import hashlib
import os
import subprocess
import sys
import tempfile
import tty
from collections.abc import Iterator
from contextlib import contextmanager

from tests.bench._timing import seconds

from footlight.link import find, slots, upload
from footlight.link.channel import Channel
from footlight_core import wire

_TURNS = 12
_ALLOWED_S = 0.05
_ECHO = "import os, sys\nwhile True: os.write(int(sys.argv[1]), os.read(int(sys.argv[1]), 4096))"

_SERVE = """
import sys
from footlight.bench import Bench
from footlight.bench.serve import serving
with Bench(sys.argv[1]) as bench:
    bench.switch_on()
    with serving(bench, "pty") as port:
        print(port, flush=True)
        sys.stdin.read()
"""


def program_of(steps: int) -> bytes:
    """A program of that many steps, with everything that a bath can say."""
    baths = [
        {
            "kind": "bath",
            "name": f"bath number {number}",
            "show": f"BATH{number}",
            "place": f"{number % 8}",
            "tongs": "A",
            "time_ms": 120_000 + number,
            "lift_ms": 10_000,
            "stir_first_ms": 30_000,
            "stir_every_ms": 30_000,
            "stir_for_ms": 5_000,
        }
        for number in range(1, steps + 1)
    ]
    return wire.dumps({"v": 1, "title": "LONG", "name": "twenty steps", "steps": baths}).encode()


class _Heard:
    """A stream that keeps what is sent and how much comes back to each frame."""

    def __init__(self, stream) -> None:
        self.name = stream.name
        self.frames: list[bytes] = []
        self._stream = stream

    def write(self, data: bytes) -> None:
        self.frames.append(data)
        self._stream.write(data)

    def read(self, size: int) -> bytes:
        return self._stream.read(size)

    def close(self) -> None:
        self._stream.close()


def _upload_s(port: str, data: bytes) -> tuple[float, list[bytes]]:
    channel: Channel = find.connect(port)
    for slot in slots.in_use(channel):
        slots.clear(channel, slot.number)
    channel.stream = heard = _Heard(channel.stream)
    sha = hashlib.sha256(data).hexdigest()
    took_s = seconds(lambda: upload.send(channel, data, sha, "LONG"))
    channel.close()
    return took_s, heard.frames


def _echo_s(frames: list[bytes]) -> float:
    """Each frame there and back, one after the other, by a process that does nothing else."""
    master, slave = os.openpty()
    tty.setraw(slave)
    echo = subprocess.Popen([sys.executable, "-c", _ECHO, str(slave)], pass_fds=[slave])
    try:
        _there_and_back(master, b"awake?")
        return seconds(lambda: [_there_and_back(master, frame) for frame in frames])
    finally:
        echo.kill()
        echo.wait()
        os.close(master)
        os.close(slave)


def _there_and_back(master: int, data: bytes) -> None:
    os.write(master, data)
    left = len(data)
    while left:
        left -= len(os.read(master, left))


@contextmanager
def _served(folder: str) -> Iterator[str]:
    """A bench in a process of its own, as a controller is -> its port."""
    command = [sys.executable, "-c", _SERVE, folder]
    with subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True) as bench:
        assert bench.stdout and bench.stdin
        try:
            yield bench.stdout.readline().strip()
        finally:
            bench.stdin.close()


def rows() -> list[tuple]:
    """The promise: at most three times the echo, and 50 ms."""
    if sys.platform == "win32":
        return [("upload of 20 steps over a pty", None, 1.0, "×", "no pseudo-terminals here")]
    data = program_of(20)
    with tempfile.TemporaryDirectory() as folder, _served(folder) as port:
        taken = [_upload_s(port, data) for _ in range(_TURNS)]
    # The quickest of each: what other programs take from the machine is in all the rest.
    upload_s = min(took_s for took_s, _ in taken)
    echo_s = min(_echo_s(taken[0][1]) for _ in range(_TURNS))
    note = f"{len(data)} bytes: {1000 * upload_s:.0f} ms; bare echo {1000 * echo_s:.1f} ms"
    allowed_s = 3 * echo_s + _ALLOWED_S
    return [("upload of 20 steps over a pty / (3 echoes + 50 ms)", upload_s / allowed_s, 1.0, "×", note)]
