"""The one place that knows serial ports: real ones, a pty, `socket://` and `rfc2217://` addresses."""

import errno
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from typing import cast

import serial
from serial.tools import list_ports

from footlight.errors import InputError, act
from footlight.link.errors import PortError

READ_WAIT_S = 0.05
WRITE_WAIT_S = 3.0
_BAUD = 115_200  # of no meaning over USB, but a port wants one

# USB vendor and product of a Pico that runs MicroPython: what the board itself reports.
_USB_IDS = {(0x2E8A, 0x0005)}


@dataclass(frozen=True)
class Port:
    """A serial port of this computer."""

    address: str
    description: str
    likely: bool  # its USB ids are those of a controller's board


def list_all() -> list[Port]:
    """Every serial port of this computer, the likely ones first."""
    ports = [
        Port(info.device, info.description or "", (info.vid, info.pid) in _USB_IDS)
        for info in list_ports.comports()
    ]
    return sorted(ports, key=lambda port: (not port.likely, port.address))


class SerialStream:
    """A channel's stream over an open port of pyserial."""

    def __init__(self, port: serial.Serial, address: str) -> None:
        self.name = address
        self._port = port

    def write(self, data: bytes) -> None:
        """All bytes, in order. Raises PortError when the connection is gone."""
        with _broken(self.name):
            self._port.write(data)

    def read(self, size: int) -> bytes:
        """What has come, at most `size`; waits READ_WAIT_S for the first byte."""
        with _broken(self.name):
            first = self._port.read(1)
            if not first:
                return b""
            # Asking for more than has come would wait out the time for bytes that are not there.
            return first + self._port.read(min(size - 1, self._port.in_waiting))

    def close(self) -> None:
        """Give the port back."""
        self._port.close()


def open_stream(address: str) -> SerialStream:
    """Open a port by name or address. Raises PortError or InputError with what to do."""
    try:
        port = serial.serial_for_url(address, do_not_open=True)
        port.baudrate, port.timeout = _BAUD, READ_WAIT_S
        if "://" not in address:
            # Two programs on one port would take each other's replies. Serial servers know neither of these.
            port.exclusive, port.write_timeout = True, WRITE_WAIT_S
        port.open()
    except ValueError as error:
        raise InputError(f"port: '{address}' is no port: {error}") from error
    except (serial.SerialException, OSError) as error:
        raise PortError(_why_not(address, error)) from error
    return SerialStream(cast(serial.Serial, port), address)


@contextmanager
def _broken(address: str) -> Iterator[None]:
    try:
        yield
    except (serial.SerialException, OSError) as error:
        raise PortError(
            f"{address}: the connection broke ({_first_line(error)}); "
            "plug the cable in again and repeat the command"
        ) from error


def _why_not(address: str, error: OSError) -> str:
    """One line for a port that cannot be opened."""
    number = _errno(error)
    if number == errno.EACCES:
        return f"{address}: not allowed; {_permission_advice()}"
    if number == errno.ENOENT:
        return f"{address}: no such port; {act('find')} lists what is there"
    if number in (errno.EBUSY, errno.EAGAIN):
        return f"{address}: another program has it open; close that one first"
    if number == errno.ENOTTY:
        return f"{address}: this is no serial port; {act('find')} lists what is there"
    if number == errno.ECONNREFUSED:
        return f"{address}: nobody listens there; is the bench being served?"
    return f"{address}: cannot be opened: {_first_line(error)}"


def _errno(error: BaseException | None) -> int | None:
    # pyserial wraps the system's error in its own, with or without its number.
    while error is not None:
        number = error.args[0] if error.args else None
        if isinstance(number, int):
            return number
        error = error.__cause__ or error.__context__
    return None


def _permission_advice() -> str:
    if sys.platform.startswith("linux"):
        return (
            "add yourself to the port's group (often 'sudo usermod -aG dialout $USER', then log in again), "
            f"or add the udev rule that {act('install --udev-rule')} prints"
        )
    return "close other programs that use the port, and allow this one to use serial ports"


def _first_line(error: BaseException) -> str:
    return (str(error).splitlines() or [type(error).__name__])[0]
