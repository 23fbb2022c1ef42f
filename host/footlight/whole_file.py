"""A file that a command writes: whole or not at all, and over another one only where that is asked for.

It is made beside its place and gets its name last. So a full disk or a power cut leaves no half file that
looks like a whole one, and nothing of what was there before is lost.
"""

import os
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from footlight.errors import InputError, field

NAME_ANOTHER = "name another"
OR_REPLACE = f"name another, or write over it with {field('replace')}"


def refuse_existing(path: Path, way_out: str = NAME_ANOTHER) -> None:
    """Raise InputError where something of that name is there; `way_out` says what to do then."""
    if path.exists():
        raise InputError(f"{path}: is there already; {way_out}")
    if path.is_symlink():
        raise InputError(f"{path}: is a link to a file that is not there; {NAME_ANOTHER}")


@contextmanager
def whole(path: Path, way_out: str = NAME_ANOTHER, *, replacing: bool = False) -> Iterator[Path]:
    """Where to write what is to be `path`, a file or a folder; with the same ending, by which some know what
    to write.

    Raises InputError where there is one already (`way_out` says what to do then) or none can be written.
    """
    if not replacing:
        refuse_existing(path, way_out)
    place = path.resolve()
    if replacing and place.exists() and not place.is_file():
        raise InputError(f"{path}: a folder or a device; name a file")
    part = place.with_name(f".{os.getpid()}.part{place.suffix}")
    try:
        yield part
        part.replace(place)
    except OSError as error:
        reason = (error.strerror or "no reason given").lower()
        raise InputError(f"{path}: cannot be written ({reason}); name another place") from None
    finally:
        _clear(part)


def _clear(part: Path) -> None:
    if part.is_dir():
        shutil.rmtree(part)
    else:
        part.unlink(missing_ok=True)


def write(path: Path, text: str, way_out: str = NAME_ANOTHER, *, replacing: bool = False) -> None:
    """A text file. Raises InputError as `whole` does."""
    with whole(path, way_out, replacing=replacing) as part:
        part.write_text(text, encoding="utf-8", newline="\n")
