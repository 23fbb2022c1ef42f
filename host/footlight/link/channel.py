"""One request at a time over any byte stream: a lost reply is asked for again, a stale one ignored.

Each request has an id, `<nonce>.<count>`. The controller keeps its last reply by that id, so the same
request may be sent again without being carried out twice. Bytes that are no frame are somebody else's
text (a prompt, noise) and are passed over, but kept long enough to say what is at the other end.
"""

import secrets
import time
from collections.abc import Callable
from typing import Any, Protocol, TypeVar

import msgspec

from footlight.link.errors import LinkError, OtherMakeError, RefusedError
from footlight.link.make import which_side
from footlight.link.replies import Greeting
from footlight.link.stranger import who_is_there
from footlight.meanings import REFUSALS, busy
from footlight_core import session, wire

Reply = TypeVar("Reply")

PATIENCE_S = 1.0  # a commit erases flash: about 45 ms a sector, a few of them
TRIES = 4
_READ_BYTES = 512
_HEARD_BYTES = 400

_REFUSAL_NAMES = {code: name for name, code in wire.REFUSALS}


class Stream(Protocol):
    """What a channel runs on."""

    @property
    def name(self) -> str:
        """How messages call the other side: the port."""
        ...

    def write(self, data: bytes, /) -> object:
        """All bytes, in order."""
        ...

    def read(self, size: int, /) -> bytes:
        """At most `size` bytes that have come; waits a moment for the first; b"" when none came."""
        ...

    def close(self) -> None:
        """Give back what it holds."""
        ...


class Channel:
    """Requests to one controller.

    `patience_s`: how long the first try waits [s], each further one twice as long; `tries`: how often a
    request is sent before the other side counts as silent; `clock`: seconds that only go forward.
    """

    def __init__(
        self,
        stream: Stream,
        *,
        patience_s: float = PATIENCE_S,
        tries: int = TRIES,
        clock: Callable[[], float] = time.monotonic,
    ) -> None:
        self.stream = stream
        self.greeting: Greeting | None = None
        self._patience_s = patience_s
        self._tries = tries
        self._clock = clock
        self._lines = wire.LineBuffer()
        self._nonce = ""
        self._count = 0
        self._heard = bytearray()

    @property
    def name(self) -> str:
        """The port, for messages."""
        return self.stream.name

    def close(self) -> None:
        """Give the port back."""
        self.stream.close()

    def greet(self, unix_s: int = 0, *, any_make: bool = False) -> Greeting:
        """Say hello, with the computer's time [s since 1970] or 0 to leave no date in the journal.

        Raises OtherMakeError unless the two sides agree; with `any_make` only if no journal
        can be read either.
        """
        self._nonce = secrets.token_hex(4)
        self._count = 0
        greeting = self._hello(unix_s)
        if not greeting.agreed and not any_make:
            raise OtherMakeError(which_side(self.name, greeting))
        self.greeting = greeting
        return greeting

    def ask(self, method: str, **params: int | str) -> dict[str, Any]:
        """The result of a request. Raises RefusedError, SilentError or NotAControllerError."""
        try:
            return self._asked(method, params)
        except RefusedError as refused:
            if refused.name != "busy":
                raise
            raise RefusedError("busy", self._why_busy(str(refused))) from refused

    def _asked(self, method: str, params: dict[str, Any]) -> dict[str, Any]:
        try:
            return self._exchange(method, params)
        except RefusedError as refused:
            if refused.name != "greet_first":
                raise
        # The controller was restarted: every request may be asked again, none does harm twice.
        self.greet(any_make=True)
        return self._exchange(method, params)

    def _why_busy(self, otherwise: str) -> str:
        """Its own status tells a run from a fault that stands; one of other make gives none."""
        try:
            return busy(self._exchange("status", {}))
        except (LinkError, KeyError, TypeError, ValueError):
            return otherwise

    def ask_for(self, shape: type[Reply], method: str, **params: int | str) -> Reply:
        """The result of a request, checked to be of that shape."""
        return self._convert(self.ask(method, **params), shape, method)

    def _hello(self, unix_s: int) -> Greeting:
        params = {
            "nonce": self._nonce,
            "least": wire.PROTOCOL_LEAST,
            "most": wire.PROTOCOL_MOST,
            "schema": session.schema(),
            "unix_s": unix_s,
        }
        try:
            return self._convert(self._exchange("hello", params), Greeting, "hello")
        except RefusedError as refused:
            # `hello` never changes its parameters; who refuses them was built by other rules.
            raise OtherMakeError(
                f"{self.name}: the controller does not take this greeting ({refused}); "
                "install the same version of footlight on the computer and on the controller"
            ) from refused

    def _convert(self, result: dict[str, Any], shape: type[Reply], method: str) -> Reply:
        try:
            return msgspec.convert(result, shape)
        except msgspec.ValidationError as error:
            raise OtherMakeError(
                f"{self.name}: the reply to '{method}' has another shape ({error}); "
                "install the same version of footlight on the computer and on the controller"
            ) from error

    def _exchange(self, method: str, params: dict[str, Any]) -> dict[str, Any]:
        self._count += 1
        request_id = f"{self._nonce}.{self._count}"
        data = wire.frame({"jsonrpc": "2.0", "id": request_id, "method": method, "params": params})
        self._heard.clear()
        for turn in range(self._tries):
            self.stream.write(data)
            # Asking again drops a reply that is under way: each time it is waited for twice as long.
            reply = self._await(request_id, self._patience_s * 2**turn)
            if reply is not None:
                return _result(reply)
        raise who_is_there(self.name, bytes(self._heard), self._nonce)

    def _await(self, request_id: str, patience_s: float) -> dict[str, Any] | None:
        deadline_s = self._clock() + patience_s
        while self._clock() < deadline_s:
            for message in self._messages(self.stream.read(_READ_BYTES)):
                # An echo of the request carries its id too, but it is no reply.
                if message.get("id") == request_id and ("result" in message or "error" in message):
                    return message
        return None

    def _messages(self, data: bytes) -> list[dict[str, Any]]:
        self._heard += data
        del self._heard[:-_HEARD_BYTES]
        lines = [line for byte in data if (line := self._lines.feed(byte)) is not None]
        decoded = [wire.decode(line)[0] for line in lines]
        return [message for message in decoded if message is not None]


def _result(reply: dict[str, Any]) -> dict[str, Any]:
    error = reply.get("error")
    if isinstance(error, dict):
        code = error.get("code")
        name = _REFUSAL_NAMES.get(code, f"code {code}") if isinstance(code, int) else "no code"
        # The controller says only what its code does not.
        raise RefusedError(name, str(error.get("message") or REFUSALS.get(name, "no reason given")))
    result = reply.get("result")
    if not isinstance(result, dict):
        raise RefusedError("no result", "the reply holds no result")
    return result
