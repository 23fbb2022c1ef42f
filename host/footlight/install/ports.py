"""Which board: none, one and several are three different answers.

A board that is new has no controller on it that could be greeted; its USB ids must do.
"""

from collections.abc import Callable

from footlight.install.errors import NoBoardError, SeveralBoardsError
from footlight.link import transport

# Only people at this computer's seat get the port, and no group has to be joined.
UDEV_RULE = 'SUBSYSTEM=="tty", ATTRS{idVendor}=="2e8a", ATTRS{idProduct}=="0005", MODE="0660", TAG+="uaccess"'
UDEV_FILE = "/etc/udev/rules.d/60-footlight.rules"


def choose(list_ports: Callable[[], list[transport.Port]] = transport.list_all) -> str:
    """The port of the one board. Raises NoBoardError or SeveralBoardsError."""
    boards = [port.address for port in list_ports() if port.likely]
    if len(boards) == 1:
        return boards[0]
    if boards:
        raise SeveralBoardsError(f"several boards are plugged in: {', '.join(boards)}; name one with --port")
    raise NoBoardError(
        "no board found: plug its USB cable in, one that carries data; a new board wants MicroPython first: "
        "hold BOOTSEL while you plug it in and copy the RPI_PICO image (.uf2) to the drive that appears"
    )
