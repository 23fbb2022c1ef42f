"""A board's MicroPython prompt, over a stream of the link."""

import ast
import io
import time
from base64 import b64encode
from collections.abc import Callable
from contextlib import redirect_stdout
from typing import Any

from mpremote.transport import TransportError, TransportExecError
from mpremote.transport_serial import SerialTransport

from footlight.install.errors import PromptError
from footlight.link.channel import Stream

_ENTER_S = 4
_READ_S = 4.0
_CHUNK_BYTES = 768
_CTRL_C = b"\r\x03\x03"


class _Port:
    """What the library takes for its serial port: a stream of the link."""

    def __init__(self, stream: Stream) -> None:
        self._stream = stream
        self._heard = bytearray()

    def write(self, data: bytes) -> None:
        self._stream.write(data)

    def inWaiting(self) -> int:  # noqa: N802 - the library's name
        if not self._heard:
            self._heard += self._stream.read(_CHUNK_BYTES)
        return len(self._heard)

    def read(self, size: int) -> bytes:
        deadline_s = time.monotonic() + _READ_S
        while len(self._heard) < size:
            if time.monotonic() > deadline_s:
                raise TransportError("it fell silent")
            self._heard += self._stream.read(_CHUNK_BYTES)
        data = bytes(self._heard[:size])
        del self._heard[:size]
        return data


class _Remote(SerialTransport):
    """The library's prompt, on a port that is open already and is the link's."""

    def __init__(self, stream: Stream) -> None:  # its own would open the port once more
        self.in_raw_repl = False
        # Its paste mode asks again and again whether something came, and a stream waits a moment each time.
        self.use_raw_paste = False
        self.device_name = stream.name
        self.mounted = False
        self.is_pty = False
        self.serial: Any = _Port(stream)


class Prompt:
    """Runs code on the board. Every method raises PromptError, or PortError when the cable goes."""

    def __init__(self, stream: Stream) -> None:
        self.name = stream.name
        self._stream = stream
        self._remote = _Remote(stream)

    def enter(self) -> None:
        """Stop what runs there, and take the prompt."""
        self._stream.write(_CTRL_C)
        try:
            # The library prints what it heard when it fails.
            with redirect_stdout(io.StringIO()):
                self._remote.enter_raw_repl(soft_reset=False, timeout_overall=_ENTER_S)
        except TransportError as error:
            raise PromptError(
                f"{self.name}: no prompt answers; plug the board out and in again and repeat the command, "
                "or install MicroPython on it anew (BOOTSEL held while it is plugged in)"
            ) from error

    def run(self, code: str) -> str:
        """What the code prints."""
        try:
            return self._remote.exec(code).decode("utf-8", "replace")
        except TransportExecError as error:
            lines = error.error_output.strip().splitlines()
            raise PromptError(f"{self.name}: the board says {lines[-1] if lines else 'nothing'}") from error
        except TransportError as error:
            raise PromptError(f"{self.name}: the prompt broke off ({error}); repeat the command") from error

    def value(self, expression: str) -> Any:
        """What an expression is there."""
        return ast.literal_eval(self.run(f"print(repr({expression}))").strip())

    def write(self, path: str, data: bytes, progress: Callable[[int], None] = lambda done: None) -> None:
        """Make a file of these bytes. `progress` is told how many bytes are there."""
        self.run(f"from binascii import a2b_base64 as b\nf=open({path!r},'wb')\nw=f.write")
        for start in range(0, len(data), _CHUNK_BYTES):
            piece = data[start : start + _CHUNK_BYTES]
            self.run(f"w(b({b64encode(piece).decode()!r}))")
            progress(start + len(piece))
        self.run("f.close()")

    def begin(self, code: str) -> None:
        """Start code that does not come back to the prompt."""
        try:
            self._remote.exec_raw_no_follow(code)
        except TransportError as error:
            raise PromptError(f"{self.name}: the prompt broke off ({error}); repeat the command") from error
