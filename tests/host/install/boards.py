"""A board for these tests: MicroPython's unix port behind a pty, that starts anew when it is reset."""

import os
import select
import subprocess
import sys
import threading
import time
import tty
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path

from footlight.bench.process import MICROPYTHON, best_interpreter

PARTS = Path(__file__).parent / "parts"
HAS_BOARD = sys.platform != "win32" and best_interpreter() == MICROPYTHON
MAKE, REST = 10, 12
_STARTER = "import sys, micropython_unix; sys.exit(micropython_unix.main())"


class Board:
    """`port`: what the computer opens; `files`: what the board's flash holds."""

    def __init__(self, folder: Path) -> None:
        self.files = folder / "flash"
        self.files.mkdir(parents=True)
        self.starts = 0
        self._inputs, self._outputs = folder / "inputs", folder / "outputs"
        self._outputs.touch()
        self.foot(down=False)
        self._computer, self._end = _raw_pty()
        self.port = os.ttyname(self._end)
        self._board, inner = _raw_pty()
        self._inner = inner
        self._over = False
        self._process: subprocess.Popen[bytes] | None = None
        self._threads = [threading.Thread(target=work, daemon=True) for work in (self._live, self._bridge)]
        for thread in self._threads:
            thread.start()

    def foot(self, *, down: bool, make: int | None = None, rest: int | None = None) -> None:
        """The pedal's two lines: low is closed."""
        make = int(not down) if make is None else make
        rest = int(down) if rest is None else rest
        new = self._inputs.with_suffix(".new")
        new.write_text(f"{MAKE} {make}\n{REST} {rest}\n")
        new.replace(self._inputs)

    def hold(self, files: Mapping[str, bytes]) -> None:
        """Put files into its flash, and start it anew."""
        for name, data in files.items():
            (self.files / name).parent.mkdir(exist_ok=True)
            (self.files / name).write_bytes(data)
        assert self._process
        self._process.kill()
        if "main.py" in files:
            self.wait_for("watchdog on")

    def told(self) -> list[str]:
        """Everything that its outputs did."""
        return self._outputs.read_text().splitlines()

    def wait_for(self, line: str, limit_s: float = 10.0) -> None:
        """Until an output has done that."""
        deadline_s = time.monotonic() + limit_s
        while line not in self.told():
            assert time.monotonic() < deadline_s, f"'{line}' never came: {self.told()[-5:]}"
            time.sleep(0.02)

    def close(self) -> None:
        """No board any more."""
        self._over = True
        if self._process:
            self._process.kill()
        for thread in self._threads:
            thread.join(5)
        for handle in (self._computer, self._end, self._board, self._inner):
            os.close(handle)

    def _live(self) -> None:
        paths = os.pathsep.join([str(PARTS), ".", ".frozen"])
        env = os.environ | {"MICROPYPATH": paths, "BOARD_INPUTS": str(self._inputs)}
        env |= {"BOARD_OUTPUTS": str(self._outputs)}
        command = [sys.executable, "-c", _STARTER, "-i", str(PARTS / "start.py")]
        while not self._over:
            self.starts += 1
            handle = self._inner
            self._process = subprocess.Popen(
                command, cwd=self.files, env=env, stdin=handle, stdout=handle, stderr=handle
            )
            self._process.wait()

    def _bridge(self) -> None:
        other = {self._computer: self._board, self._board: self._computer}
        while not self._over:
            for source in select.select(list(other), [], [], 0.1)[0]:
                os.write(other[source], os.read(source, 4096))


def _raw_pty() -> tuple[int, int]:
    master, slave = os.openpty()
    tty.setraw(slave)
    return master, slave


@contextmanager
def board(folder: Path) -> Iterator[Board]:
    """A board that is on."""
    made = Board(folder)
    try:
        yield made
    finally:
        made.close()
