"""A key of a file, declared once: how it is read, what is allowed, its default, what it means.

The reader, the error messages and the reference in `docs/sequences.md` all come from the declaration.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

from footlight.errors import InputError
from footlight.sequence.errors import nearest, short
from footlight.sequence.places import Place

REQUIRED = object()


@dataclass(frozen=True)
class Reader:
    """Reads one written value. `read(written, what)` raises InputError; `allowed` and `example` are said."""

    read: Callable[[Any, str], Any]
    allowed: str
    example: str


@dataclass(frozen=True)
class Key:
    """One key. `default` is the value where it is not written (REQUIRED: it must be); `unless` says it."""

    name: str
    reader: Reader
    meaning: str
    default: Any = REQUIRED
    unless: str = ""

    @property
    def example(self) -> str:
        """How it is written: `lift = "10 s"`, `[[step]]`."""
        example = self.reader.example
        return example if example.startswith("[") else f"{self.name} = {example}"

    @property
    def is_required(self) -> bool:
        """Must it be written?"""
        return self.default is REQUIRED


def read_keys(table: Any, keys: Sequence[Key], place: Place) -> dict[str, Any]:
    """Every key of a table, read and checked, with its default where it is not written.

    Raises InputError for a key that is not known (naming the nearest), one that is missing, and a value
    that its reader refuses.
    """
    if not isinstance(table, dict):
        raise InputError(f"{place.of()}: {short(table)} stands where keys are expected")
    names = [key.name for key in keys]
    for name in table:
        if name not in names:
            raise InputError(f"{place.of(short(name))} is not a key here{nearest(name, names)}")
    return {key.name: read_key(table, key, place) for key in keys}


def read_key(table: dict[str, Any], key: Key, place: Place) -> Any:
    """One key of a table, read and checked, or its default. Raises InputError."""
    if key.name in table:
        return key.reader.read(table[key.name], place.of(key.name))
    if key.is_required:
        raise InputError(f"{place.of()}: {key.name} is missing; write for example {key.example}")
    return key.default
