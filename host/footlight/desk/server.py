"""The desk's own server: this computer's addresses only, a start within a second, an end at once."""

import os
import socket
from collections.abc import Callable
from contextlib import suppress

import uvicorn
from starlette.types import ASGIApp

from footlight.errors import InputError, field

HOSTS = ("127.0.0.1", "[::1]", "localhost")
# An open page holds a stream of live values; the end does not wait for it.
_ENDING_S = 1


def sockets(port: int) -> list[socket.socket]:
    """Listening sockets of this computer itself, for IPv4 and, where it is, IPv6; 0: any free port.

    Raises InputError where the port is taken.
    """
    first = _bound(socket.AF_INET, "127.0.0.1", port)
    bound = [first]
    with suppress(OSError, InputError):
        # Without IPv6 the first is enough.
        bound.append(_bound(socket.AF_INET6, "::1", first.getsockname()[1]))
    return bound


def port_of(bound: list[socket.socket]) -> int:
    """The port that they listen at."""
    return bound[0].getsockname()[1]


def hosts(port: int) -> frozenset[str]:
    """How a browser may call them."""
    return frozenset(f"{host}:{port}" for host in HOSTS)


def serve(app: ASGIApp, bound: list[socket.socket], ready: Callable[[], None]) -> None:
    """Answer until Ctrl-C. ready: called when the first page can be asked for."""
    config = uvicorn.Config(
        app,
        log_level="critical",
        access_log=False,
        lifespan="off",
        ws="none",
        server_header=False,
        timeout_graceful_shutdown=_ENDING_S,
    )
    # The sockets listen already: whoever comes before the loop turns is waited for.
    ready()
    uvicorn.Server(config).run(sockets=bound)


def _bound(family: int, address: str, port: int) -> socket.socket:
    listening = socket.socket(family, socket.SOCK_STREAM)
    try:
        if os.name == "posix":
            # Only over connections that have ended; elsewhere it would take a living server's port.
            listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        if family == socket.AF_INET6:
            listening.setsockopt(socket.IPPROTO_IPV6, socket.IPV6_V6ONLY, 1)
        listening.bind((address, port))
        listening.listen(64)
    except (OSError, OverflowError) as error:
        listening.close()
        raise InputError(
            f"{field('at')}: port {port} of this computer cannot be had ({_why(error)}); a desk may be open"
            f" there already, else name another with {field('at')}"
        ) from error
    return listening


def _why(error: Exception) -> str:
    return (getattr(error, "strerror", None) or f"{error}").lower()
