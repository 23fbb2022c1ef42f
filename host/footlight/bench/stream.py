"""The cable between the bench's controller and a computer, in virtual time.

Reading grants time to the controller in small steps until something has come, so the link's own code runs
over this stream with no wall clock involved.
"""

from collections.abc import Callable
from typing import Protocol

READ_WAIT_MS = 50
_STEP_MS = 5


class Far(Protocol):
    """The controller's end of the cable."""

    now_us: int
    readers: list[Callable[[bytes], None]]

    def run_for(self, span_ms: float) -> None:
        """Let time pass [ms]."""
        ...

    def give_bytes(self, data: bytes) -> None:
        """Bytes from the computer arrive now."""
        ...

    def take_bytes(self) -> bytes:
        """What the firmware has sent since the last look."""
        ...

    def stall(self, stalled: bool) -> None:
        """The cable takes nothing more from the firmware, or does again."""
        ...


class BenchStream:
    """A byte stream with `write`, `read` and `close`."""

    def __init__(self, bench: Far) -> None:
        self.name = "bench"
        self._bench = bench
        self._waiting = bytearray()
        self._listens = True

    def write(self, data: bytes) -> None:
        """Bytes to the controller; they are there at once."""
        self._bench.give_bytes(data)

    def read(self, size: int, timeout_s: float = READ_WAIT_MS / 1000) -> bytes:
        """What has come, at most `size`; lets up to `timeout_s` of virtual time pass for the first byte."""
        bench = self._bench
        until_ms = bench.now_us / 1000 + timeout_s * 1000
        bench.run_for(0)
        while not self._waiting and bench.now_us / 1000 < until_ms:
            bench.run_for(min(_STEP_MS, until_ms - bench.now_us / 1000))
        return self.take(size)

    def take(self, size: int = -1) -> bytes:
        """What has come already; no time passes."""
        count = len(self._waiting) if size < 0 else size
        data = bytes(self._waiting[:count])
        del self._waiting[:count]
        return data

    def listen(self, listens: bool) -> None:
        """False = the computer holds the port open and reads nothing, until nothing more goes in."""
        self._listens = listens
        self._bench.stall(not listens)

    def close(self) -> None:
        """Nothing to give back."""

    def clock(self) -> float:
        """Seconds of the bench, for time-outs of the link [s]."""
        return self._bench.now_us / 1_000_000

    # -- for the bench -----------------------------------------------------------------------------

    def collect(self) -> None:
        """Fetch what the firmware has sent."""
        if self._listens:
            data = self._bench.take_bytes()
            if data:
                self.feed(data)

    def feed(self, data: bytes) -> None:
        """Bytes that the firmware has sent."""
        self._waiting += data
        for reader in self._bench.readers:
            reader(data)

    def forget(self) -> None:
        """What was under way is gone with the power."""
        self._waiting.clear()
