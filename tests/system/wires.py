"""What stands between the tool and the firmware in these tests: cables that break, ports of strangers."""

import os
import subprocess
import sys
import threading
import tty
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from footlight.link.channel import Stream
from footlight.link.errors import PortError

REPOSITORY = Path(__file__).parents[2]


class CutStream:
    """A stream that breaks after so many bytes to the controller."""

    def __init__(self, stream: Stream, left: int) -> None:
        self.name = stream.name
        self.left = left
        self.sent = 0
        self._stream = stream

    def write(self, data: bytes) -> None:
        whole = len(data) <= self.left
        self._stream.write(data[: self.left])
        self.sent += min(len(data), self.left)
        self.left = max(0, self.left - len(data))
        if not whole:
            raise PortError(f"{self.name}: the connection broke (cut by the test)")

    def read(self, size: int) -> bytes:
        return self._stream.read(size)

    def close(self) -> None:
        self._stream.close()


@contextmanager
def stranger(answer: bytes | None) -> Iterator[str]:
    """A pty at whose other end something else answers: a text, or, with None, all that it is sent."""
    master, slave = os.openpty()
    tty.setraw(slave)

    def answering() -> None:
        while True:
            try:
                data = os.read(master, 4096)
            except OSError:
                return
            if data == b"end":
                return
            os.write(master, data if answer is None else answer)

    thread = threading.Thread(target=answering, daemon=True)
    thread.start()
    try:
        yield os.ttyname(slave)
    finally:
        os.write(slave, b"end")
        thread.join(5)
        os.close(master)
        os.close(slave)


@dataclass(frozen=True)
class Said:
    """What a command left behind."""

    code: int
    out: str
    err: str


def tool(*arguments: object, home: Path) -> Said:
    """The real command in a process of its own, in an empty home."""
    env = {key: value for key, value in os.environ.items() if not key.startswith("FOOTLIGHT_")}
    env |= {"HOME": str(home), "XDG_DATA_HOME": str(home / "data"), "TZ": "UTC", "COLUMNS": "100"}
    done = subprocess.run(
        [sys.executable, "-c", "from footlight.cli.main import run; run()", *map(str, arguments)],
        capture_output=True,
        text=True,
        env=env,
        timeout=60,
        check=False,
    )
    return Said(done.returncode, done.stdout, done.stderr)
