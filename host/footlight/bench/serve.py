"""A served port: programs talk to the bench as to a controller at the end of a cable.

A pseudo-terminal where the system has them, or a TCP socket anywhere. A thread relays the bytes and lets
the bench's time pass; nobody else may grant it time meanwhile (`press` and `release` need none).
"""

import contextlib
import os
import select
import socket
import sys
import threading
from collections.abc import Iterator
from typing import Protocol

from footlight.bench.bench import Bench
from footlight.bench.pace import Pace
from footlight.errors import FootlightError, field

TICK_S = 0.005
_CHUNK = 4096
PTY = "pty"
TCP = "tcp"


class ServeError(FootlightError):
    """The port cannot be served."""


class _Line(Protocol):
    address: str

    def wait(self, span_s: float) -> bytes:
        """What comes in, waiting up to `span_s` for it."""
        ...

    def send(self, data: bytes) -> int:
        """How many of the bytes went out."""
        ...

    def close(self) -> None:
        """Give everything back."""
        ...


def best_kind() -> str:
    """A pseudo-terminal where there are any."""
    return TCP if sys.platform == "win32" else PTY


@contextlib.contextmanager
def serving(
    bench: Bench, kind: str | None = None, speed: float = 1.0, port: int = 0, pace: Pace | None = None
) -> Iterator[str]:
    """Serve a bench while the block runs -> the address for `--port`.

    `kind`: "pty" or "tcp", None = the better one that is there. `port`: TCP port, 0 = any free one.
    `pace`: how its time passes, in place of `speed`, for a caller who wants to change that.
    """
    line = _open_line(kind or best_kind(), port)
    server = _Server(bench, line, pace or Pace(bench, speed))
    server.start()
    try:
        yield line.address
    finally:
        server.finish()
        line.close()


class _Server(threading.Thread):
    def __init__(self, bench: Bench, line: _Line, pace: Pace) -> None:
        super().__init__(name="bench port", daemon=True)
        self._bench = bench
        self._line = line
        self._pace = pace
        self._ending = threading.Event()
        self._waiting = b""
        self._error: BaseException | None = None

    def run(self) -> None:
        """Relay until told to end."""
        try:
            while not self._ending.is_set():
                self._turn()
        except BaseException as error:  # noqa: BLE001 - raised again where the block ends
            self._error = error
        finally:
            self._pace.stopped.set()

    def finish(self) -> None:
        """End, and raise what ended it earlier."""
        self._ending.set()
        self.join()
        if self._error:
            raise self._error

    def _turn(self) -> None:
        data = self._line.wait(TICK_S)
        if data:
            self._bench.stream().write(data)
        self._pace.step()
        # What the computer does not take stays here; what waits behind it stays in the controller.
        if not self._waiting:
            self._waiting = self._bench.stream().take()
        if self._waiting:
            self._waiting = self._waiting[self._line.send(self._waiting) :]


def _open_line(kind: str, port: int) -> _Line:
    if kind == TCP:
        return _TcpLine(port)
    if sys.platform == "win32":
        raise ServeError(f"this system has no pseudo-terminals; serve over TCP with {field('tcp')}")
    return _PtyLine()


class _PtyLine:
    def __init__(self) -> None:
        import tty

        self._master, self._slave = os.openpty()
        tty.setraw(self._slave)
        os.set_blocking(self._master, False)
        self.address = os.ttyname(self._slave)

    def wait(self, span_s: float) -> bytes:
        if not select.select([self._master], [], [], span_s)[0]:
            return b""
        return os.read(self._master, _CHUNK)

    def send(self, data: bytes) -> int:
        try:
            return os.write(self._master, data)
        except BlockingIOError:
            return 0

    def close(self) -> None:
        os.close(self._master)
        os.close(self._slave)


class _TcpLine:
    def __init__(self, port: int) -> None:
        try:
            self._listener = socket.create_server(("127.0.0.1", port))
        except OSError as error:
            raise ServeError(f"TCP port {port} cannot be served ({error}); choose another one") from error
        self.address = f"socket://127.0.0.1:{self._listener.getsockname()[1]}"
        self._client: socket.socket | None = None

    def wait(self, span_s: float) -> bytes:
        source = self._client or self._listener
        if not select.select([source], [], [], span_s)[0]:
            return b""
        if self._client is None:
            self._client, _ = self._listener.accept()
            self._client.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
            self._client.setblocking(False)
            return b""
        return self._receive(self._client)

    def send(self, data: bytes) -> int:
        if self._client is None:
            return len(data)
        try:
            return self._client.send(data)
        except BlockingIOError:
            return 0
        except OSError:
            self._hang_up()
            return len(data)

    def close(self) -> None:
        self._hang_up()
        self._listener.close()

    def _receive(self, client: socket.socket) -> bytes:
        try:
            data = client.recv(_CHUNK)
        except ConnectionError:
            data = b""
        if not data:
            self._hang_up()
        return data

    def _hang_up(self) -> None:
        if self._client is not None:
            self._client.close()
            self._client = None
