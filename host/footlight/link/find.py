"""Finding the controller. None, one and several are three different answers."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from footlight.errors import field
from footlight.link import transport
from footlight.link.channel import Channel, Stream
from footlight.link.errors import LinkError, NoControllerError, SeveralControllersError
from footlight.link.replies import Greeting

# A port that is only being looked at is not waited for long.
PROBE_PATIENCE_S = 0.5
PROBE_TRIES = 2

Open = Callable[[str], Stream]


@dataclass(frozen=True)
class Look:
    """What one port turned out to be: `greeting` if a controller answers, else `trouble` says why not."""

    address: str
    description: str
    greeting: Greeting | None
    trouble: str

    @property
    def is_controller(self) -> bool:
        """Does a controller answer there, of whatever make?"""
        return self.greeting is not None


def look_at(address: str, description: str = "", open_stream: Open = transport.open_stream) -> Look:
    """Greet whoever is at that port."""
    try:
        stream = open_stream(address)
    except LinkError as error:
        return Look(address, description, None, str(error))
    try:
        channel = Channel(stream, patience_s=PROBE_PATIENCE_S, tries=PROBE_TRIES)
        return Look(address, description, channel.greet(any_make=True), "")
    except LinkError as error:
        return Look(address, description, None, str(error))
    finally:
        stream.close()


def look_everywhere(ports: Iterable[transport.Port], open_stream: Open = transport.open_stream) -> list[Look]:
    """Greet every port whose USB ids are those of a controller's board.

    Other ports are left alone: they may belong to something that bytes would upset.
    """
    return [look_at(port.address, port.description, open_stream) for port in ports if port.likely]


def choose(looks: list[Look]) -> str:
    """The address of the one controller. Raises NoControllerError or SeveralControllersError."""
    found = [look for look in looks if look.is_controller]
    if len(found) == 1:
        return found[0].address
    if found:
        listed = ", ".join(f"{look.address} ({look.greeting.id})" for look in found if look.greeting)
        raise SeveralControllersError(f"several controllers answer: {listed}; name one with {field('port')}")
    raise none_found(looks)


def none_found(looks: list[Look]) -> NoControllerError:
    """The error for looks of which none found a controller: what was wrong with each."""
    if looks:
        return NoControllerError("no controller found; " + "; ".join(look.trouble for look in looks))
    return NoControllerError(
        "no controller found: plug its cable in and switch it on, "
        f"or name its port with {field('port')} (for the bench: the address that it shows)"
    )


def connect(
    address: str | None,
    *,
    unix_s: int = 0,
    any_make: bool = False,
    open_stream: Open | None = None,
    list_ports: Callable[[], list[transport.Port]] = transport.list_all,
) -> Channel:
    """A greeted channel to the controller at `address`, or to the only one there is.

    `unix_s`: the computer's time [s since 1970] for the journal, or 0.
    """
    open_stream = open_stream or transport.open_stream
    if address is None:
        address = choose(look_everywhere(list_ports(), open_stream))
    stream = open_stream(address)
    try:
        channel = Channel(stream)
        channel.greet(unix_s, any_make=any_make)
    except LinkError:
        stream.close()
        raise
    return channel
