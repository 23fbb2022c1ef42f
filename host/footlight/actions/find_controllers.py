"""Find the controllers that are plugged in."""

from collections.abc import Iterable

from footlight import settings
from footlight.link import find, transport
from footlight.link.find import Look
from footlight.link.make import which_side

__all__ = ["Look", "find_controllers", "refuse_none", "state_of"]


def find_controllers(ports: Iterable[str] = ()) -> list[Look]:
    """What each of these ports turned out to be; without any, the one of the settings and each whose USB ids
    are those of a controller's board. Other ports are not spoken to."""
    named = list(ports)
    looks = [find.look_at(port) for port in named or _set_port()]
    if not named:
        others = (port for port in transport.list_all() if port.address not in _set_port())
        looks += find.look_everywhere(others)
    return looks


def refuse_none(looks: list[Look]) -> None:
    """Raises NoControllerError where none of the looks found a controller."""
    if not looks:
        raise find.none_found([])
    if not any(look.is_controller for look in looks):
        raise find.NoControllerError("none of these is a controller")


def state_of(look: Look) -> str:
    """What a port turned out to be: a controller that is ready, one of another make, or why there is none."""
    greeting = look.greeting
    if greeting is None:
        return look.trouble
    state = "ready" if greeting.agreed else which_side(look.address, greeting).partition(": ")[2]
    bench = " (the bench)" if greeting.is_bench else ""
    return f"controller {greeting.id}{bench}, {state}"


def _set_port() -> list[str]:
    port = settings.held("port").value
    return [str(port)] if port else []
