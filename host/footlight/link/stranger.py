"""When no reply comes: what the other end seems to be, from what it sent instead."""

from footlight.link.errors import LinkError, NotAControllerError, SilentError

_SHOWN_BYTES = 40


def who_is_there(port: str, heard: bytes, nonce: str) -> LinkError:
    """The error for a port that sent `heard` and no reply to requests whose ids begin with `nonce`."""
    if not heard.strip():
        return SilentError(
            f"{port}: no answer; is the controller switched on and its cable in? "
            "If it is, switch it off and on again"
        )
    if f'"{nonce}.'.encode() in heard and b'"method"' not in heard:
        return SilentError(
            f"{port}: a controller answers, but too slowly; wait until it has come to rest, and repeat the "
            "command. If it stays so, switch it off and on again"
        )
    if b">>> " in heard or b"raw REPL" in heard:
        return NotAControllerError(
            f"{port}: a prompt answers, not the controller's program; "
            "switch the controller off and on again, or install its program"
        )
    if b'"method":"' in heard:
        return NotAControllerError(f"{port}: it sends back what it is sent: no controller; name another port")
    return NotAControllerError(
        f"{port}: something answers, but no controller (it sent {_printable(heard)}); name another port"
    )


def _printable(heard: bytes) -> str:
    return repr(heard.strip()[:_SHOWN_BYTES])[1:]
