"""The USB cable of an emulated board, as a byte stream in simulated time.

Works round a defect of the emulator's USB host, which ends every armed bulk transfer to the board with an
empty packet each 10 us, an interrupt storm: here a transfer ends only when there is something to send.
"""

import typing
from collections import deque
from typing import Any

from rp2040py.usb.cdc import USBCDC

if typing.TYPE_CHECKING:
    from tests.emulated.chip import Chip

_READ_WAIT_MS = 50


class Cable:
    """`write`, `read`, `close` and `clock`, as the link wants them."""

    name = "emulated board"

    def __init__(self, chip: "Chip") -> None:
        self.up = False
        self._chip = chip
        self._heard = bytearray()
        self._queue: deque[int] = deque()
        self._armed: list[int] = []
        self._usb: Any = chip.mcu.usb_ctrl
        self._cdc: Any = USBCDC(self._usb)
        self._cdc.on_serial_data = self._hear
        self._cdc.on_device_connected = self._connected
        self._host_read = self._usb.on_endpoint_read
        self._usb.on_endpoint_read = self._arm
        self._host_reset = self._usb.on_reset
        self._usb.on_reset = self._reset
        self._is_deaf = False
        self._withheld = 0
        self._ready = self._usb._indicate_buffer_ready
        self._usb._indicate_buffer_ready = self._indicate

    def write(self, data: bytes) -> None:
        """Bytes to the board; they are there at once."""
        self._queue.extend(data)
        self._send()

    def read(self, size: int) -> bytes:
        """What has come, at most `size`; lets a little simulated time pass for the first byte."""
        if not self._heard:
            self._chip.run_until(lambda: bool(self._heard), _READ_WAIT_MS)
        return self.take(size)

    def take(self, size: int = 1 << 30) -> bytes:
        """What has come already; no time passes."""
        data = bytes(self._heard[:size])
        del self._heard[: len(data)]
        return data

    def peek(self) -> bytes:
        """What has come and was not yet read."""
        return bytes(self._heard)

    def stop_reading(self) -> None:
        """The port stays open, and nothing is taken from the board any more."""
        self._is_deaf = True

    def read_on(self) -> None:
        """What the board has for us is taken again."""
        self._is_deaf = False
        withheld, self._withheld = self._withheld, 0
        for _ in range(withheld):
            self._ready(self._cdc._in_endpoint, False)

    def pull_out(self) -> None:
        """The plug is out for a moment; as it goes in again the bus is reset, and everything begins anew."""
        self._reset()
        self._usb.reset_device()

    def close(self) -> None:
        """Nothing to give back."""

    def clock(self) -> float:
        """Seconds of simulated time [s]."""
        return self._chip.now_ms / 1000

    def _hear(self, data: bytes | bytearray) -> None:
        self._heard += data

    def _connected(self) -> None:
        self.up = True

    def _arm(self, endpoint: int, size: int) -> None:
        if endpoint == 0 or endpoint != self._cdc._out_endpoint:
            self._host_read(endpoint, size)
            return
        self._armed.append(size)
        self._send()

    def _indicate(self, endpoint: int, out: bool) -> None:
        # A transfer to a computer that does not read never ends.
        if self._is_deaf and not out and endpoint == self._cdc._in_endpoint:
            self._withheld += 1
        else:
            self._ready(endpoint, out)

    def _send(self) -> None:
        if self._queue and self._armed:
            size = min(self._armed.pop(0), len(self._queue))
            packet = bytes(self._queue.popleft() for _ in range(size))
            self._usb.endpoint_read_done(self._cdc._out_endpoint, packet)

    def _reset(self) -> None:
        self._armed.clear()
        self._queue.clear()
        self._withheld = 0
        self.up = False
        self._host_reset()
