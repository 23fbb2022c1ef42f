"""How fast the bench is: virtual time against the wall, and an upload over a served port."""

import hashlib
import os
import sys
import tempfile
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from tests.controller.stage import BATH, LIGHT, armed, program, state

from footlight.bench import Bench
from footlight.bench.serve import PTY, serving
from footlight.link import upload
from footlight.link.channel import Channel
from footlight.link.transport import open_stream
from footlight_core import wire

SPEED_WANTED = 900
ALLOWANCE_S = 0.050
STIR = {"stir_first_ms": 30_000, "stir_every_ms": 30_000, "stir_for_ms": 5_000}
QUARTER_HOUR = program(
    BATH | STIR | {"time_ms": 700_000, "lift_ms": 10_000},
    LIGHT | {"time_ms": 59_000},
    BATH | {"time_ms": 100_000},
)
TWENTY_STEPS = program(*[BATH | STIR | {"place": "1", "tongs": "A"}] * 20)


def rows() -> list[tuple]:
    """(name, value, limit, unit, note)."""
    speed, interpreter = _virtual_speed()
    found = [
        (
            "a 15-minute run in virtual time, wall time × 900 / virtual time",
            SPEED_WANTED / speed,
            1.0,
            "×",
            f"{speed:.0f} × real time on {interpreter}, display frames included",
        )
    ]
    if sys.platform != "win32":
        taken_s, echo_s = _upload_s(), _echo_s()
        found.append(
            (
                "20 steps uploaded over a pty, less 50 ms, against a bare echo of the same bytes",
                max(0.0, taken_s - ALLOWANCE_S) / echo_s,
                3.0,
                "×",
                f"{taken_s * 1000:.0f} ms against {echo_s * 1000:.1f} ms",
            )
        )
    return found


def _virtual_speed() -> tuple[float, str]:
    with tempfile.TemporaryDirectory() as folder, armed(Path(folder), QUARTER_HOUR) as bench:
        begin_s, begin_ms = time.perf_counter(), bench.now_ms
        for span_ms in (695_000, 1_000, 60_000, 144_000):
            bench.tap()
            bench.run_for(span_ms)
        wall_s = time.perf_counter() - begin_s
        assert state(bench) == "over", "the run went otherwise than it was meant to"
        return (bench.now_ms - begin_ms) / 1000 / wall_s, bench.interpreter


class _Counted:
    """A stream that keeps what was written, so that the same can be echoed."""

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


_FRAMES: list[bytes] = []


def _upload_s() -> float:
    data = wire.dumps(TWENTY_STEPS).encode()
    with tempfile.TemporaryDirectory() as folder, Bench(folder) as bench:
        bench.switch_on()
        bench.run_for(1_000)
        with serving(bench, PTY) as address:
            stream = open_stream(address)
            counted = _Counted(stream)
            channel = Channel(counted)
            channel.greet()
            begin_s = time.perf_counter()
            upload.send(channel, data, hashlib.sha256(data).hexdigest(), "PRINT")
            taken_s = time.perf_counter() - begin_s
            channel.close()
    _FRAMES[:] = counted.frames[1:]
    return taken_s


@contextmanager
def _echo() -> Iterator[str]:
    import tty

    master, slave = os.openpty()
    tty.setraw(slave)

    def relay() -> None:
        while data := os.read(master, 4096):
            if data == b"\x04":
                return
            os.write(master, data)

    thread = threading.Thread(target=relay)
    thread.start()
    yield os.ttyname(slave)
    os.write(slave, b"\x04")
    thread.join()
    os.close(master)
    os.close(slave)


def _echo_s() -> float:
    with _echo() as address:
        stream = open_stream(address)
        begin_s = time.perf_counter()
        for frame in _FRAMES:
            stream.write(frame)
            missing = len(frame)
            while missing:
                missing -= len(stream.read(missing))
        taken_s = time.perf_counter() - begin_s
        stream.close()
        return taken_s
