"""What can go wrong between a computer and a board's prompt, each with what to do about it."""

from footlight.errors import FootlightError
from footlight.link.errors import NoControllerError, SeveralControllersError


class InstallError(FootlightError):
    """Root of what installing reports. Sequences and journal on the board are as they were."""

    exit_code = 6


class NoBoardError(NoControllerError):
    """No board is plugged in."""


class SeveralBoardsError(SeveralControllersError):
    """More than one board is plugged in, and none was named."""


class BusyError(InstallError):
    """The controller is in use: it does not leave its program."""


class BenchError(InstallError):
    """The bench is at the other end: it has no prompt to go to, and would be left switched off."""


class PromptError(InstallError):
    """The board's prompt does not answer, or answers with an error."""


class BoardError(InstallError):
    """Another board, or another MicroPython, than the firmware is made for."""
