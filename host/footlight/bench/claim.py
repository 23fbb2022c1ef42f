"""One bench at a time in a folder: two would write over each other's flash."""

import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from footlight.errors import FootlightError, field

_NAME = "in-use"


class ClaimError(FootlightError):
    """The folder cannot be had: another bench works there, or nothing can be written."""


@contextmanager
def claimed(folder: Path) -> Iterator[None]:
    """The folder is this process's alone while the block runs. It is free again however that ends."""
    descriptor = _opened(folder)
    try:
        try:
            _lock(descriptor)
        except BlockingIOError as error:
            raise ClaimError(
                f"{field('folder')} {folder}: another bench is running there; end that one, or name another"
                " folder"
            ) from error
        yield
    finally:
        os.close(descriptor)


def _opened(folder: Path) -> int:
    try:
        folder.mkdir(parents=True, exist_ok=True)
        return os.open(folder / _NAME, os.O_RDWR | os.O_CREAT)
    except OSError as error:
        reason = (error.strerror or str(error)).lower()
        raise ClaimError(
            f"{field('folder')} {folder}: cannot be used ({reason}); name another folder"
        ) from error


def _lock(descriptor: int) -> None:
    if os.name == "nt":
        import msvcrt

        try:
            msvcrt.locking(descriptor, msvcrt.LK_NBLCK, 1)  # pyright: ignore[reportAttributeAccessIssue]
        except OSError as error:
            raise BlockingIOError(str(error)) from error
    else:
        import fcntl

        fcntl.flock(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)
