"""What a killed command leaves beside a notebook, and whose it is.

SQLite writes the old pages of a change into `NAME-journal` before it changes the file, and whoever opens the
file next puts them back. It does so with whatever file has that name: one that was restored or copied there
since would be spoilt by pages of another. So before a notebook is opened, a journal that waits there is held
against the file, and what is not surely its own is set aside, told, and never put back.

The format is that of https://www.sqlite.org/fileformat2.html, sections 1.3 and 3.
"""

import struct
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import BinaryIO

from footlight.errors import act
from footlight.notebook.errors import NotebookError

ENDINGS = ("-journal", "-wal", "-shm")
_MAGIC = bytes.fromhex("d9d505f920a163d7")
_HEADER = struct.Struct(">8sIIIII")  # magic, pages, nonce, pages of the file before, sector, page size
_FIRST_PAGE_BYTES = 100
_CHANGES = slice(24, 28)  # in the first page: how often the file was changed
_COOKIE = slice(40, 44)
# SQLite's lock byte of whoever is about to write.
_RESERVED_BYTE = 0x40000001


@dataclass(frozen=True)
class _Page:
    number: int
    data: bytes


def refuse_strange(book: Path) -> None:
    """Set aside what waits beside `book` and is not its own. Raises NotebookError when something was."""
    strange = [path for path in _waiting(book) if not _belongs(path, book)]
    if strange:
        names = ", ".join(set_aside(path).name for path in strange)
        raise NotebookError(
            f"{book}: beside it lay what a stopped command had left of another file of this name; it was put "
            f"aside as {names}, and nothing of the notebook was changed: look it through with "
            f"{act('check')}, then repeat the command"
        )


def clear_for(book: Path) -> list[Path]:
    """Set aside all that lies beside the name of a notebook that is about to be made -> where it is now."""
    return [set_aside(path) for path in _beside(book) if path.exists()]


def set_aside(path: Path) -> Path:
    """Give a file a name under which SQLite will not look for it -> that name."""
    number = 1
    while (target := path.with_name(f"{path.name}.aside-{number}")).exists():
        number += 1
    return path.rename(target)


def _beside(book: Path) -> list[Path]:
    return [book.with_name(book.name + ending) for ending in ENDINGS]


def _waiting(book: Path) -> list[Path]:
    return [path for path in _beside(book)[:2] if path.exists() and path.stat().st_size]


def _belongs(path: Path, book: Path) -> bool:
    """Is this file beside a notebook its own, or at work just now?"""
    if not book.exists():
        return False
    head = _read(book, 0, _FIRST_PAGE_BYTES)
    if path.name.endswith("-wal"):
        # Ours never have one; a general tool may have given it one, and then the file itself says so.
        return head[18:20] == b"\x02\x02"
    return _is_in_use(book) or _fits(path, book, head)


def _fits(journal: Path, book: Path, head: bytes) -> bool:
    """Could these pages be those that the file had before the change that was cut off?

    The first page is in every journal, for each change counts itself there, and is written before the others
    (a cache that is written early is switched off). So either it was not changed yet, and then no page was,
    or it counts one change more.
    """
    pages = list(_pages(journal))
    first = next((page for page in pages if page.number == 1), None)
    if first is None:
        return not pages  # nothing that would be put back
    before, now = _number(first.data[_CHANGES]), _number(head[_CHANGES])
    if now == before:
        return all(
            _read(book, (page.number - 1) * len(page.data), len(page.data)) == page.data for page in pages
        )
    return now == before + 1 and first.data[16:18] == head[16:18] and _cookie_goes_on(first.data, head)


def _cookie_goes_on(before: bytes, now: bytes) -> bool:
    # A migration changes the schema a few dozen times in one change of the file.
    return 0 <= _number(now[_COOKIE]) - _number(before[_COOKIE]) <= 1000


def _pages(journal: Path) -> Iterator[_Page]:
    """The pages that SQLite would put back: those of the first header, whose check sums are right."""
    data = journal.read_bytes()
    if len(data) < _HEADER.size or data[:8] != _MAGIC:
        return
    _, count, nonce, _, sector, size = _HEADER.unpack_from(data)
    if not 512 <= size <= 65536 or not 32 <= sector <= 65536:
        return
    for start in range(sector, len(data) - size - 7, size + 8)[: count if count != 0xFFFFFFFF else None]:
        number, page = _number(data[start : start + 4]), data[start + 4 : start + 4 + size]
        if _number(data[start + 4 + size : start + 8 + size]) != _check_sum(nonce, page):
            return
        yield _Page(number, page)


def _check_sum(nonce: int, page: bytes) -> int:
    return (nonce + sum(page[place] for place in range(len(page) - 200, 0, -200))) & 0xFFFFFFFF


def _number(data: bytes) -> int:
    return int.from_bytes(data, "big")


def _read(path: Path, start: int, count: int) -> bytes:
    with path.open("rb") as file:
        file.seek(start)
        return file.read(count)


def _is_in_use(book: Path) -> bool:
    """Does another program write there at this moment? Then the journal is that program's."""
    with book.open("rb") as file:
        try:
            _try_lock(file)
        except OSError:
            return True
    return False


def _try_lock(file: BinaryIO) -> None:
    """Take and give back the lock that a writer holds. Raises OSError where another program has it."""
    try:
        import fcntl
    except ImportError:
        import msvcrt

        file.seek(_RESERVED_BYTE)
        for what in (msvcrt.LK_NBLCK, msvcrt.LK_UNLCK):  # pyright: ignore[reportAttributeAccessIssue]
            file.seek(_RESERVED_BYTE)
            msvcrt.locking(file.fileno(), what, 1)  # pyright: ignore[reportAttributeAccessIssue]
        return
    fcntl.lockf(file, fcntl.LOCK_SH | fcntl.LOCK_NB, 1, _RESERVED_BYTE)
    fcntl.lockf(file, fcntl.LOCK_UN, 1, _RESERVED_BYTE)
