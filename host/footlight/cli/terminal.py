"""The terminal's own streams: guarded, so that nothing in a file, title or remark is obeyed by it."""

from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from typing import TextIO

from footlight.views.plain_text import plain


def guard(stream: TextIO) -> None:
    """From now on everything that is written there is plain."""
    write: Callable[[str], int] = stream.write

    def guarded(text: str) -> int:
        write(plain(text))
        return len(text)

    with suppress(AttributeError):  # a stand-in for a stream that takes no other `write` is left as it is
        stream.write = guarded  # pyright: ignore[reportAttributeAccessIssue]


@contextmanager
def free(*streams: TextIO) -> Iterator[None]:
    """While a picture is drawn, which moves the cursor; whoever draws sees to its texts."""
    guarded = {
        stream: stream.__dict__.pop("write", None) for stream in streams if hasattr(stream, "__dict__")
    }
    try:
        yield
    finally:
        for stream, write in guarded.items():
            if write is not None:
                stream.write = write
