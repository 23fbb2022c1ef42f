"""The process that runs the box, and the lines between it and the bench.

MicroPython gets two pipes of its own for the channel, and its standard input and output are the link.
CPython, for machines that have no MicroPython, keeps the channel on standard input and output.
"""

import importlib.util
import json
import os
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from footlight.errors import FootlightError

BOX = Path(__file__).parent / "box"
MICROPYTHON = "micropython"
CPYTHON = "cpython"
# A Ctrl-C in the terminal is for the tool alone: it ends the firmware's process itself, as a power cut does.
_APART: dict[str, Any] = (
    {"process_group": 0} if os.name == "posix" else {"creationflags": 0x200}  # CREATE_NEW_PROCESS_GROUP
)


class BoxError(FootlightError):
    """The simulated controller cannot be started, or its process has gone."""


def best_interpreter() -> str:
    """MicroPython where there is one for this machine, otherwise CPython."""
    return MICROPYTHON if importlib.util.find_spec("micropython_unix") else CPYTHON


class BoxProcess:
    """One life of the firmware: from power on until it ends or is killed."""

    def __init__(
        self, interpreter: str, firmware: list[Path], options: dict[str, Any], heap_kib: int
    ) -> None:
        self.has_pipes = interpreter == MICROPYTHON
        env = os.environ | {"FOOTLIGHT_BOX": json.dumps(options)}
        if self.has_pipes:
            self._start_micropython(firmware, env, heap_kib)
        else:
            self._start_cpython(firmware, env)

    def send(self, line: str) -> None:
        """One command."""
        try:
            self._commands.write(line.encode() + b"\n")
            self._commands.flush()
        except BrokenPipeError as error:
            raise BoxError("the simulated controller's process has gone; start the bench again") from error

    def lines(self) -> Iterator[str]:
        """Events, until the box waits for a command (a line that begins with `@`) or has gone."""
        for line in self._events:
            yield line.decode()

    def kill(self) -> None:
        """Ends it at once, as a power cut does."""
        self._process.kill()
        self._process.wait()
        for stream in self._streams:
            stream.close()

    def _start_micropython(self, firmware: list[Path], env: dict[str, str], heap_kib: int) -> None:
        command_read, command_write = os.pipe()
        event_read, event_write = os.pipe()
        env |= {"FOOTLIGHT_COMMANDS": str(command_read), "FOOTLIGHT_EVENTS": str(event_write)}
        env["MICROPYPATH"] = os.pathsep.join([str(BOX), *map(str, firmware), ".frozen"])
        starter = "import sys, micropython_unix; sys.exit(micropython_unix.main())"
        self._process = subprocess.Popen(
            [sys.executable, "-c", starter, "-X", f"heapsize={heap_kib}k", str(BOX / "start.py")],
            env=env,
            pass_fds=(command_read, event_write),
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            **_APART,
        )
        os.close(command_read)
        os.close(event_write)
        self._commands = open(command_write, "wb", buffering=0)  # noqa: SIM115 - closed by kill
        self._events = open(event_read, "rb")  # noqa: SIM115 - closed by kill
        assert self._process.stdin and self._process.stdout
        self.link_in, self.link_out = self._process.stdin, self._process.stdout
        self._streams = [self._commands, self._events, self.link_in, self.link_out]
        os.set_blocking(self.link_out.fileno(), False)

    def _start_cpython(self, firmware: list[Path], env: dict[str, str]) -> None:
        env["PYTHONPATH"] = os.pathsep.join([str(BOX), *map(str, firmware)])
        self._process = subprocess.Popen(
            [sys.executable, "-S", str(BOX / "on_cpython.py")],
            env=env,
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            **_APART,
        )
        assert self._process.stdin and self._process.stdout
        self._commands, self._events = self._process.stdin, self._process.stdout
        self._streams = [self._commands, self._events]
