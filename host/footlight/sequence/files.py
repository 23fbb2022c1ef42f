"""Reading a file that may be anything: bounded, never executed, every fault one line."""

import tomllib
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from footlight.errors import InputError
from footlight.sequence.errors import printable, short
from footlight.sequence.places import Place, line_numbers

MOST_BYTES = 64 * 1024
MOST_TEXT = 120
MOST_FREE_TEXT = 2000
FREE_TEXT = ("about", "note")
_MOST_DEPTH = 6
# The time to read a dotted key grows with the square of its parts.
_MOST_LINE = 4096
_MOST_NUMBER = 10**9
# Blanks that a word processor puts between a number and its unit.
_BLANKS = "\N{NO-BREAK SPACE}\N{NARROW NO-BREAK SPACE}"


@dataclass(frozen=True)
class Read:
    """A TOML file as it was found: its table, and the place of its head."""

    table: dict[str, Any]
    head: Place


def read_toml(path: Path, noun: str) -> Read:
    """Read a TOML file of at most `MOST_BYTES` bytes; `noun` says what it should be ("a sequence file").

    Raises InputError for a file that is missing, too large, not text, not TOML, or that holds control
    characters, absurd numbers or tables nested out of all reason.
    """
    return read_text(_text(path, printable(str(path)), noun), str(path), noun)


def read_text(text: str, name: str, noun: str) -> Read:
    """The same of a text that is at hand; `name` stands for it in messages."""
    file = printable(name)
    longest = max(map(len, text.splitlines()), default=0)
    if longest > _MOST_LINE:
        raise InputError(f"{file}: not {noun}: a line of {longest} characters; allowed is {_MOST_LINE}")
    try:
        table = tomllib.loads(text)
    except (ValueError, RecursionError) as error:
        # ValueError besides TOMLDecodeError: a number of more digits than Python converts.
        reason = "nested too deeply" if isinstance(error, RecursionError) else printable(str(error))[:160]
        raise InputError(f"{file}: not {noun}: {reason}; it must be TOML") from None
    head = Place(file, lines=line_numbers(text))
    _check_values(table, head)
    return Read(table, head)


def beside(path: Path, named: str, what: str) -> Path:
    """A file that another one names: in the same folder or below it, never elsewhere.

    Raises InputError, headed by `what`, for a name that leads out of the folder.
    """
    if Path(named).is_absolute() or ".." in Path(named).parts or "\\" in named or ":" in named:
        raise InputError(f"{what}: '{short(named)}'; allowed is a file in this folder or below it")
    return path.parent / named


def _text(path: Path, file: str, noun: str) -> str:
    data = _data(path, file, noun)
    if len(data) > MOST_BYTES:
        raise InputError(f"{file}: larger than {MOST_BYTES // 1024} KiB, which is no {noun.split(' ', 1)[1]}")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise InputError(f"{file}: not {noun}: byte {error.start + 1} is not UTF-8 text") from None


def _data(path: Path, file: str, noun: str) -> bytes:
    try:
        # A device or a pipe could wait or flow for ever.
        if path.exists() and not path.is_file():
            raise InputError(f"{file}: a folder or a device; give {noun}")
        with path.open("rb") as stream:
            return stream.read(MOST_BYTES + 1)
    except (OSError, ValueError) as error:
        # ValueError: a path with a null byte in it.
        reason = getattr(error, "strerror", None) or "not a path"
        raise InputError(f"{file}: cannot be read ({reason.lower()}); give {noun}") from None


def _check_values(table: dict[str, Any], head: Place) -> None:
    """Refuse what no reader should have to think of. A list of its own instead of recursion."""
    waiting: list[tuple[Any, str, int]] = [(table, "", 0)]
    while waiting:
        value, key, depth = waiting.pop()
        if depth > _MOST_DEPTH:
            raise InputError(f"{head.file}: {short(key)}: tables nested deeper than {_MOST_DEPTH}")
        if isinstance(value, dict):
            for name, inner in value.items():
                _check_text(name, head, "a key")
                waiting.append((inner, name, depth + 1))
        elif isinstance(value, list):
            waiting += [(inner, key, depth + 1) for inner in value]
        elif isinstance(value, str):
            _check_text(value, head, key)
        elif isinstance(value, int | float) and abs(value) > _MOST_NUMBER:
            raise InputError(f"{head.file}: {short(key)}: a number beyond all measure; allowed is below 10^9")


def _check_text(text: str, head: Place, key: str) -> None:
    free = key in FREE_TEXT
    most = MOST_FREE_TEXT if free else MOST_TEXT
    if len(text) > most:
        raise InputError(
            f"{head.file}: {short(key)}: a text of {len(text)} characters; allowed is at most {most}"
        )
    for char in text:
        if not char.isprintable() and char not in _BLANKS and not (free and char in "\n\t"):
            raise InputError(f"{head.file}: {short(key)}: control character {char!a} in {short(text)!r}")
