"""What can go wrong between the computer and the controller, each with what to do about it."""

from footlight.errors import FootlightError


class LinkError(FootlightError):
    """Root of what the link reports. Nothing on the controller was lost."""

    exit_code = 5


class NoControllerError(LinkError):
    """Nothing was found that answers as a controller."""

    exit_code = 3


class SeveralControllersError(LinkError):
    """More than one controller answers, and none was named."""

    exit_code = 4


class PortError(LinkError):
    """The port cannot be opened, or the connection broke."""


class SilentError(LinkError):
    """Nothing comes back."""


class NotAControllerError(LinkError):
    """Something comes back, but no reply of a controller."""


class OtherMakeError(LinkError):
    """The two sides do not agree on messages, steps or records."""


class RefusedError(LinkError):
    """The controller answered no: `name` is one of `wire.REFUSALS`."""

    def __init__(self, name: str, text: str) -> None:
        self.name = name
        super().__init__(text)
