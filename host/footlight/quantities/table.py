"""The keys of a table that came from a file: unknown ones are errors with a suggestion."""

from collections.abc import Callable, Collection, Mapping
from typing import Any

from footlight.errors import InputError

Where = Callable[[str], str]
"""Names the place of a key, for messages: `Where("focal")` is "camera.toml, line 3, lens 'A': focal"."""


def in_file(name: str) -> Where:
    """Places of a file's head: `name: key`."""
    return lambda key: f"{name}: {key}" if key else name


def inside(where: Where, title: str) -> Where:
    """Places of a table within it: `name: ingredient 2: key`."""
    return lambda key: f"{where('')}: {title}: {key}" if key else f"{where('')}: {title}"


def keys_of(
    table: object, known: Collection[str], where: Where, required: Mapping[str, str] | None = None
) -> dict[str, Any]:
    """The table itself, once it has only `known` keys and all `required` ones (key -> example of its line).

    Raises `InputError` naming the key, with the nearest known one.
    """
    if not isinstance(table, dict):
        raise InputError(f"{where('')}: a single value stands where keys are expected")
    for key in table:
        if key not in known:
            raise InputError(f"{where(repr(str(key))[1:-1][:40])} is not a key here{suggestion(key, known)}")
    for key, example in (required or {}).items():
        if key not in table:
            raise InputError(f"{where('')}: {key} is missing; write for example {key} = {example}")
    return table


def choice(written: object, known: Collection[str], what: str) -> str:
    """A word that must be one of `known`; raises `InputError` with the nearest."""
    if isinstance(written, str) and written in known:
        return written
    shown = repr(written if isinstance(written, str) else str(written))[:60]
    raise InputError(f"{what}: {shown} is not known{suggestion(str(written), known)}")


def suggestion(word: object, known: Collection[str]) -> str:
    """`; did you mean 'focal'?`, or all that there is."""
    # Only where something is wrong already.
    from difflib import get_close_matches

    close = get_close_matches(str(word).lower(), known, n=1, cutoff=0.6)
    return f"; did you mean '{close[0]}'?" if close else f"; there is {', '.join(known)}"
