"""Which board: none, one and several are three different answers.

A board that is new has no controller on it that could be greeted; its USB ids must do.
"""

from collections.abc import Callable

from footlight.errors import field
from footlight.install.errors import NoBoardError, SeveralBoardsError
from footlight.link import transport


def choose(list_ports: Callable[[], list[transport.Port]] = transport.list_all) -> str:
    """The port of the one board. Raises NoBoardError or SeveralBoardsError."""
    boards = [port.address for port in list_ports() if port.likely]
    if len(boards) == 1:
        return boards[0]
    if boards:
        raise SeveralBoardsError(
            f"several boards are plugged in: {', '.join(boards)}; name one with {field('port')}"
        )
    raise NoBoardError(
        "no board found: plug its USB cable in, one that carries data; a new board wants MicroPython first: "
        "hold BOOTSEL while you plug it in and copy the RPI_PICO image (.uf2) to the drive that appears"
    )
