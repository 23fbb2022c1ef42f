"""When the two sides are of different make: which of them to update."""

from footlight.link.replies import Greeting
from footlight_core import session, wire

_COMPUTER = "update footlight on the computer"
_CONTROLLER = "install the newer program on the controller"


def which_side(port: str, greeting: Greeting) -> str:
    """One line: what differs, which side to update, and what works all the same."""
    return f"{port}: {_difference(greeting)}; the journal can be read all the same"


def _difference(greeting: Greeting) -> str:
    theirs = f"controller speaks protocol {_span(greeting.least, greeting.most)}"
    ours = f"computer {_span(wire.PROTOCOL_LEAST, wire.PROTOCOL_MOST)}"
    if greeting.most < wire.PROTOCOL_LEAST:
        return f"{theirs}, {ours}: {_CONTROLLER}"
    if greeting.least > wire.PROTOCOL_MOST:
        return f"{theirs}, {ours}: {_COMPUTER}"
    builds = f"controller is build {greeting.build}, computer build {session.BUILD}"
    if greeting.build < session.BUILD:
        return f"{builds}: {_CONTROLLER}"
    if greeting.build > session.BUILD:
        return f"{builds}: {_COMPUTER}"
    return (
        f"{builds}, yet their tables differ ({greeting.schema} and {session.schema()}): "
        "install the same version of footlight on both"
    )


def _span(least: int, most: int) -> str:
    return f"{least}" if least == most else f"{least} to {most}"
