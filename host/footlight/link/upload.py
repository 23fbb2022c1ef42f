"""Sending a program: begin, put, commit. What was cut off goes on from where it stopped.

Until the commit the slot holds what it held before; a commit that was answered once is answered the
same again. So a send that failed anywhere is repeated as it is.
"""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass

from footlight.link import slots
from footlight.link.channel import Channel
from footlight.link.errors import LinkError, PortError, RefusedError, SilentError
from footlight_core import wire

Progress = Callable[[int, int], None]

# After so many restarts of the controller within one upload something else is wrong with it.
_MOST_BEGINS = 3
_LOST = ("no_upload", "bad_offset")
_SHA_SHOWN = 16


@dataclass(frozen=True)
class Delivery:
    """Where a program is now. `moved_bytes`: how many bytes of it had to be sent; 0 = it was there."""

    slot: int
    title: str
    sha256: str
    moved_bytes: int


def send(
    channel: Channel,
    data: bytes,
    sha256: str,
    title: str,
    *,
    slot: int | None = None,
    progress: Progress = lambda sent, total: None,
) -> Delivery:
    """Put a program into a slot: the one named, that of the same title, or the first free one.

    `progress` is told (bytes there, bytes in all). Raises LinkError; the slot then holds what it held.
    """
    limits = slots.limits(channel)
    if len(data) > limits.bytes:
        raise LinkError(
            f"the sequence is {len(data)} bytes long for the controller, which takes {limits.bytes}; "
            "shorten names or leave out steps"
        )
    there = slots.in_use(channel)
    number = slots.choose(there, title, limits.slots) if slot is None else slot
    for known in there:
        if known.number == number and known.sha == sha256[:_SHA_SHOWN]:
            return Delivery(number, known.title, sha256, 0)
    return _Upload(channel, data, sha256, number, limits.chunk, progress).run()


class _Upload:
    def __init__(
        self, channel: Channel, data: bytes, sha256: str, slot: int, chunk: int, progress: Progress
    ) -> None:
        self._channel = channel
        self._data = data
        self._sha256 = sha256
        self._slot = slot
        self._chunk = min(chunk, wire.CHUNK)
        self._progress = progress
        self._offset = 0
        self._moved = 0

    def run(self) -> Delivery:
        """Until the program is committed."""
        with self._explained():
            for _ in range(_MOST_BEGINS):
                try:
                    return self._once()
                except RefusedError as refused:
                    # Restarted in between: what arrived may be gone, so ask again how far it reached.
                    if refused.name not in _LOST:
                        raise
            raise LinkError("the controller forgot the upload again and again")

    def _once(self) -> Delivery:
        self._offset = self._ask_offset("begin", sha256=self._sha256, length=len(self._data))
        self._progress(self._offset, len(self._data))
        while self._offset < len(self._data):
            self._put()
        answer = self._channel.ask("commit", slot=self._slot, sha256=self._sha256)
        return Delivery(self._slot, str(answer.get("title", "")), self._sha256, self._moved)

    def _put(self) -> None:
        piece = self._data[self._offset : self._offset + self._chunk]
        self._offset = self._ask_offset("put", offset=self._offset, data=wire.pack(piece))
        self._moved += len(piece)
        self._progress(self._offset, len(self._data))

    def _ask_offset(self, method: str, **params: int | str) -> int:
        offset = self._channel.ask(method, slot=self._slot, **params).get("offset")
        if not isinstance(offset, int) or not 0 <= offset <= len(self._data):
            raise LinkError(f"the controller asks for byte {offset} of {len(self._data)}")
        return offset

    @property
    def _held(self) -> str:
        return f"slot {self._slot} holds what it held before"

    def _kept(self) -> str:
        if self._offset < len(self._data):
            return self._held
        # The commit may have been done and its answer lost.
        return f"slot {self._slot} holds the old sequence or the new one, whole"

    @contextmanager
    def _explained(self) -> Iterator[None]:
        port = self._channel.name
        try:
            yield
        except (SilentError, PortError) as error:
            raise SilentError(
                f"{port}: the controller fell silent after {self._offset} of {len(self._data)} bytes; "
                f"{self._kept()}; plug it in again and repeat the command, it goes on from there"
            ) from error
        except RefusedError as refused:
            raise RefusedError(refused.name, f"{port}: {_refusal_text(refused)}; {self._held}") from refused


def _refusal_text(refused: RefusedError) -> str:
    if refused.name == "bad_program":
        return f"the controller will not run this sequence ({refused})"
    if refused.name == "storage":
        return f"the controller's memory failed ({refused})"
    if refused.name == "bad_hash":
        return "what arrived is not what was sent; repeat the command"
    return str(refused)
